// What a voice was heard to be like, as it is kept in a profile: for each Gaussian that heard enough of it, how many frames and
// their mean, in two bytes a number. Little-endian; base64 in the profile. What another model heard is of no use to this one.
import { GAUSSIANS, type Gaussians, WIDTH } from "../engine/gaussians.ts";
import { VoiceStatistics } from "./statistics.ts";

const LEAST_FRAMES = 0.1;
const FRAME_UNIT = 1 / 64;
const MEAN_UNIT = 1 / 128;
const HEAD_BYTES = 4;
const ENTRY_BYTES = 2 * (2 + WIDTH);

const short = (value: number) => Math.max(-32_768, Math.min(32_767, Math.round(value)));

/** Statistics as text: about three hundred kilobytes for a minute of speech. */
export function keep({ frames, sums }: Pick<VoiceStatistics, "frames" | "sums">, { fingerprint }: Gaussians): string {
  const heard = [...frames.keys()].filter((gaussian) => (frames[gaussian] ?? 0) >= LEAST_FRAMES);
  const view = new DataView(new ArrayBuffer(HEAD_BYTES + heard.length * ENTRY_BYTES));
  view.setUint32(0, fingerprint, true);
  heard.forEach((gaussian, index) => {
    const at = HEAD_BYTES + index * ENTRY_BYTES;
    const count = frames[gaussian] ?? 0;
    view.setUint16(at, gaussian, true);
    view.setUint16(at + 2, Math.min(65_535, Math.round(count / FRAME_UNIT)), true);
    for (let i = 0; i < WIDTH; i += 1)
      view.setInt16(at + 4 + 2 * i, short((sums[gaussian * WIDTH + i] ?? 0) / count / MEAN_UNIT), true);
  });
  return btoa(Array.from(new Uint8Array(view.buffer), (byte) => String.fromCharCode(byte)).join(""));
}

/** Statistics from a profile; undefined when they are another model's or no statistics. */
export function unpack(kept: string, { fingerprint }: Gaussians): VoiceStatistics | undefined {
  const bytes = Uint8Array.from(atob(kept), (char) => char.charCodeAt(0));
  const view = new DataView(bytes.buffer);
  if (bytes.length < HEAD_BYTES || (bytes.length - HEAD_BYTES) % ENTRY_BYTES !== 0) return undefined;
  if (view.getUint32(0, true) !== fingerprint) return undefined;
  const statistics = new VoiceStatistics();
  for (let at = HEAD_BYTES; at < bytes.length; at += ENTRY_BYTES) {
    const gaussian = view.getUint16(at, true);
    if (gaussian >= GAUSSIANS) return undefined;
    const count = view.getUint16(at + 2, true) * FRAME_UNIT;
    statistics.frames[gaussian] = count;
    for (let i = 0; i < WIDTH; i += 1)
      statistics.sums[gaussian * WIDTH + i] = view.getInt16(at + 4 + 2 * i, true) * MEAN_UNIT * count;
  }
  return statistics;
}
