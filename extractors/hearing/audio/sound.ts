// A clip as the recogniser gets it: at its rate, on another frequency scale, with light noise under it.
import { ENGINE_RATE } from "../engine/decoder.ts";
import { DITHER_DB, dithered } from "./dither.ts";
import { QUICK, resample } from "./resample.ts";

/** Dither levels of successive passes, dB: near each other, so that what the passes cost can be compared. */
const DITHERS = [DITHER_DB, DITHER_DB - 1, DITHER_DB + 1, DITHER_DB - 1.5, DITHER_DB + 1.5];

/** A clip at the recogniser's rate, on the frequency scale `warp`. */
export const onScale = ({ pcm, rate }: { readonly pcm: Float32Array; readonly rate: number }, warp: number): Float32Array =>
  resample(pcm, Math.round(rate * warp), ENGINE_RATE, QUICK);

/** What the recogniser gets of such a sound: the noise of pass number `turn` lies under it. */
export const heardAt = (sound: Float32Array, turn: number): Float32Array =>
  dithered(sound, DITHERS[turn % DITHERS.length] ?? DITHER_DB, turn + 1);
