// A clip as the recogniser gets it: at its rate, on another frequency scale, with light noise under it.
import { ENGINE_RATE } from "../engine/decoder.ts";
import { DITHER_DB, dithered } from "./dither.ts";
import { resample } from "./resample.ts";

/** Dither levels of successive passes, dB: near each other, so that what the passes cost can be compared. */
const DITHERS = [DITHER_DB, DITHER_DB - 1, DITHER_DB + 1, DITHER_DB - 1.5, DITHER_DB + 1.5];

/** The sound of a clip on the frequency scale `warp`, with the noise of pass number `turn`. */
export function soundOf(
  { pcm, rate }: { readonly pcm: Float32Array; readonly rate: number },
  warp: number,
  turn: number,
): Float32Array {
  const slowed = resample(pcm, Math.round(rate * warp), ENGINE_RATE);
  return dithered(slowed, DITHERS[turn % DITHERS.length] ?? DITHER_DB, turn + 1);
}
