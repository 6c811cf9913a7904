// Parameter files of the acoustic model (its means, its variances): a text header, a byte-order mark, seven counts, single-precision
// numbers and a checksum over what follows the mark.

const HEADER_END = "endhdr\n";
const ORDER_BYTES = 4;
/** Codebooks, streams, densities, the width of each of three streams, numbers. */
const COUNTS_BYTES = 28;
const DENSITIES_AT = 8;
const NUMBERS_AT = 24;
const NUMBER_BYTES = 4;
const CHECKSUM_BYTES = 4;

function headerEnd(file: Uint8Array): number {
  const text = new TextDecoder("latin1").decode(file.subarray(0, 200));
  const at = text.indexOf(HEADER_END);
  if (at < 0) throw new Error("Expected a parameter file of the acoustic model, got another");
  return at + HEADER_END.length + ORDER_BYTES;
}

/** The first `count` numbers of a file. Throws when it is no parameter file or has fewer. */
export function numbersOf(file: Uint8Array, count: number): Float32Array {
  const at = headerEnd(file) + COUNTS_BYTES;
  const bytes = file.slice(at, at + count * NUMBER_BYTES);
  if (bytes.length !== count * NUMBER_BYTES) throw new Error("Expected the parameters of every Gaussian, got fewer");
  return new Float32Array(bytes.buffer);
}

/** The running sum over counts and numbers that closes a file. */
export function checksum(file: Uint8Array): number {
  const view = new DataView(file.buffer, file.byteOffset);
  let sum = 0;
  for (let at = headerEnd(file); at < file.length - CHECKSUM_BYTES; at += 4)
    sum = ((((sum << 20) | (sum >>> 12)) >>> 0) + view.getUint32(at, true)) >>> 0;
  return sum;
}

/** A file as `like` is, with other numbers in it, of so many densities a codebook and stream. */
export function parameterFile(like: Uint8Array, numbers: Float32Array, densities: number): Uint8Array {
  const counts = headerEnd(like);
  const first = counts + COUNTS_BYTES;
  const file = new Uint8Array(first + numbers.byteLength + CHECKSUM_BYTES);
  file.set(like.subarray(0, first));
  file.set(new Uint8Array(numbers.buffer, numbers.byteOffset, numbers.byteLength), first);
  const view = new DataView(file.buffer);
  view.setInt32(counts + DENSITIES_AT, densities, true);
  view.setInt32(counts + NUMBERS_AT, numbers.length, true);
  view.setUint32(file.length - CHECKSUM_BYTES, checksum(file), true);
  return file;
}
