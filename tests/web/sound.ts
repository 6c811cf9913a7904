// Spoken sentences as one WAV for the browser's fake microphone: synthesised voices, a quiet room, pauses between.
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll } from "vitest";
import { fliteVoice } from "../../demo-data/voices.ts";
import { seeded } from "../../extractors/hearing/audio/noise.ts";
import { resample, writeWav } from "../../extractors/hearing/index.ts";

const RATE = 16_000;
/**
 * Quiet before the first sentence: far longer than a busy machine takes to arm the ear. The tone that says it is armed shuts the ear for
 * a moment, and a sentence that begins under it is asked for again.
 */
const LEAD_SECONDS = 8;
/** Quiet after each sentence, for the answer. */
const GAP_SECONDS = 3;
const ROOM = 0.0006;

const folders: string[] = [];
afterAll(async () => {
  for (const folder of folders.splice(0)) await rm(folder, { recursive: true, force: true });
});

/** Flags that make Chromium play `wav` into its microphone, once, from the moment the page opens it. */
export const microphoneArgs = (wav: string): string[] => [
  "--use-fake-device-for-media-stream",
  "--use-fake-ui-for-media-stream",
  `--use-file-for-fake-audio-capture=${wav}%noloop`,
];

/**
 * Synthesise sentences into a file, which goes with the test file; gives its path and its length. `gapSeconds`: the quiet after each
 * sentence, in turn where several are given.
 */
export async function spokenWav(
  sentences: readonly string[],
  gapSeconds: number | readonly number[] = GAP_SECONDS,
  leadSeconds = LEAD_SECONDS,
): Promise<{ path: string; seconds: number }> {
  const voice = fliteVoice("rms");
  const parts: Float32Array[] = [new Float32Array(leadSeconds * RATE)];
  const gaps = [gapSeconds].flat();
  for (const [index, sentence] of sentences.entries()) {
    const { pcm, rate } = await voice.say(sentence);
    parts.push(
      resample(pcm, rate, RATE).map((sample) => sample * 0.7),
      new Float32Array((gaps[index % gaps.length] ?? GAP_SECONDS) * RATE),
    );
  }
  const random = seeded(11);
  const pcm = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    pcm.set(part, at);
    at += part.length;
  }
  const room = pcm.map((sample) => sample + (random() * 2 - 1) * ROOM);
  const folder = await mkdtemp(join(tmpdir(), "thoubook-mic-"));
  folders.push(folder);
  const path = join(folder, "mic.wav");
  await writeFile(path, writeWav({ pcm: room, rate: RATE }));
  return { path, seconds: pcm.length / RATE };
}
