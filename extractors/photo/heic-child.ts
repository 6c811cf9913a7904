// The HEIC decoder's own process: HEIC bytes on standard input, width, height and RGBA on standard output.
import heic from "heic-decode";

const limit = Number(process.argv[2]);

async function readAll(): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks);
}

function answer(width: number, height: number, data?: Uint8ClampedArray): void {
  const head = Buffer.alloc(8);
  head.writeUInt32LE(width, 0);
  head.writeUInt32LE(height, 4);
  process.stdout.write(head);
  if (data) process.stdout.write(new Uint8Array(data.buffer, data.byteOffset, data.byteLength));
}

const images = await heic.all({ buffer: await readAll() });
const [first] = images;
// The size is known before any pixel is decoded: a picture over the cap costs no memory.
if (!first) process.exitCode = 1;
else if (first.width * first.height > limit) answer(0, 0);
else answer(first.width, first.height, (await first.decode()).data);
