// Makes the demo's spoken clips again: every line of the day book, synthesised, 16 kHz mono PCM16. Deterministic.
import { mkdir, readdir, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { mixAt, seeded } from "../extractors/hearing/audio/noise.ts";
import { resample, writeWav } from "../extractors/hearing/index.ts";
import { SCENARIO, type SpokenClip } from "./scenario.ts";
import { shopNoise } from "./shop-noise.ts";
import { fliteVoice, type Voice } from "./voices.ts";

const RATE = 16_000;
const LEAD_SECONDS = 0.3;
const TAIL_SECONDS = 0.4;
/** A quiet room, in decibels below full scale: no microphone is silent. */
const ROOM_LEVEL = 0.0006;
const SHOP_NOISE_DB = 22;

/** A number that is the same for the same name, so that each clip has its own noise. */
function seedOf(name: string): number {
  let seed = 2166136261;
  for (const letter of name) seed = Math.imul(seed ^ letter.charCodeAt(0), 16777619);
  return seed >>> 0;
}

async function soundOf(voice: Voice, { id, say, noise }: SpokenClip): Promise<Float32Array> {
  const said = await voice.say(say);
  const speech = resample(said.pcm, said.rate, RATE);
  const random = seeded(seedOf(id));
  const pcm = new Float32Array(speech.length + Math.round((LEAD_SECONDS + TAIL_SECONDS) * RATE));
  for (let i = 0; i < pcm.length; i += 1) pcm[i] = (random() * 2 - 1) * ROOM_LEVEL;
  const lead = Math.round(LEAD_SECONDS * RATE);
  for (let i = 0; i < speech.length; i += 1) pcm[lead + i] = (pcm[lead + i] ?? 0) + (speech[i] ?? 0) * 0.7;
  return noise === undefined ? pcm : mixAt(pcm, shopNoise(noise, pcm.length, RATE, seedOf(`${id} noise`)), SHOP_NOISE_DB);
}

const folder = path.join(path.dirname(fileURLToPath(import.meta.url)), "clips");
await mkdir(folder, { recursive: true });
for (const file of await readdir(folder)) if (file.endsWith(".wav")) await rm(path.join(folder, file));
const voice = fliteVoice("rms");
for (const clip of SCENARIO)
  await writeFile(path.join(folder, `${clip.id}.wav`), writeWav({ pcm: await soundOf(voice, clip), rate: RATE }));
process.stdout.write(`${SCENARIO.length} clips synthesised into ${folder}\n`);
