// WAV bytes in, mono float samples out, and back. RIFF/WAVE as in Microsoft's "Multimedia Programming Interface and
// Data Specifications 1.0" (1991) with the extensible header of 2001.
import { HearingError } from "../errors.ts";

export interface Sound {
  /** Mono, -1..1. */
  readonly pcm: Float32Array;
  /** Samples a second. */
  readonly rate: number;
}

const PCM = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;
export const MIN_RATE = 8000;
export const MAX_RATE = 192_000;
/** A clip longer than this is no bench utterance; the rest of the day is not decoded by accident. */
export const MAX_CLIP_SECONDS = 120;

interface Format {
  readonly encoding: number;
  readonly channels: number;
  readonly rate: number;
  readonly bits: number;
}

const chunkName = (view: DataView, at: number) =>
  String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));

function readFormat(view: DataView, at: number, size: number): Format {
  if (size < 16) throw new HearingError("clip_truncated", `Expected 16 or more bytes for the WAV format chunk, got ${size}.`);
  const tag = view.getUint16(at, true);
  // The extensible form keeps the real encoding in the first two bytes of its GUID.
  const encoding = tag === EXTENSIBLE && size >= 26 ? view.getUint16(at + 24, true) : tag;
  return {
    encoding,
    channels: view.getUint16(at + 2, true),
    rate: view.getUint32(at + 4, true),
    bits: view.getUint16(at + 14, true),
  };
}

type SampleReader = (view: DataView, at: number) => number;

const READERS: Readonly<Record<string, SampleReader>> = {
  [`${PCM}/8`]: (view, at) => (view.getUint8(at) - 128) / 128,
  [`${PCM}/16`]: (view, at) => view.getInt16(at, true) / 32768,
  [`${PCM}/24`]: (view, at) => (view.getInt8(at + 2) * 65536 + view.getUint16(at, true)) / 8388608,
  [`${PCM}/32`]: (view, at) => view.getInt32(at, true) / 2147483648,
  [`${FLOAT}/32`]: (view, at) => view.getFloat32(at, true),
  [`${FLOAT}/64`]: (view, at) => view.getFloat64(at, true),
};

function readerOf(format: Format): SampleReader {
  const { encoding, bits, channels, rate } = format;
  const reader = READERS[`${encoding}/${bits}`];
  if (reader === undefined)
    throw new HearingError(
      "clip_encoding_unknown",
      `Expected PCM of 8, 16, 24 or 32 bits or float for the clip, got WAV encoding ${encoding} with ${bits} bits.`,
    );
  if (channels < 1 || channels > 8)
    throw new HearingError("clip_channels_unusable", `Expected 1 to 8 channels for the clip, got ${channels}.`);
  if (rate < MIN_RATE || rate > MAX_RATE)
    throw new HearingError(
      "clip_rate_unusable",
      `Expected ${MIN_RATE} to ${MAX_RATE} samples a second for the clip, got ${rate}.`,
    );
  return reader;
}

function mixDown(view: DataView, at: number, frames: number, format: Format): Float32Array {
  const reader = readerOf(format);
  const width = format.bits / 8;
  const pcm = new Float32Array(frames);
  for (let frame = 0; frame < frames; frame += 1) {
    let sum = 0;
    for (let channel = 0; channel < format.channels; channel += 1) {
      const sample = reader(view, at + (frame * format.channels + channel) * width);
      // A float clip may hold anything; what is no number is silence, never poison for the whole clip.
      sum += Number.isFinite(sample) ? sample : 0;
    }
    pcm[frame] = sum / format.channels;
  }
  return pcm;
}

/**
 * Read a WAV file: PCM 8/16/24/32 or float, any channel count (mixed to mono), 8 to 192 kHz.
 * Throws `HearingError` when the bytes are empty, are no WAV, end early, or hold no sound.
 */
export function readWav(bytes: Uint8Array): Sound {
  if (bytes.length === 0) throw new HearingError("clip_empty", "Expected sound for the clip, got an empty file.");
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 12 || chunkName(view, 0) !== "RIFF" || chunkName(view, 8) !== "WAVE")
    throw new HearingError("clip_not_wav", "Expected a RIFF/WAVE file for the clip, got something else.");

  let format: Format | undefined;
  let at = 12;
  while (at + 8 <= bytes.length) {
    const name = chunkName(view, at);
    const size = view.getUint32(at + 4, true);
    const body = at + 8;
    if (name === "fmt ") {
      if (body + Math.min(size, 16) > bytes.length) break;
      format = readFormat(view, body, Math.min(size, bytes.length - body));
    }
    if (name === "data") return readData(view, body, size, format);
    at = body + size + (size % 2);
  }
  throw new HearingError("clip_truncated", "Expected a data chunk for the clip, got the end of the file.");
}

function readData(view: DataView, at: number, size: number, format: Format | undefined): Sound {
  if (format === undefined) throw new HearingError("clip_truncated", "Expected a format chunk before the clip's data, got none.");
  readerOf(format);
  const there = view.byteLength - at;
  // Streaming writers leave the size open (0 or all ones); then the data runs to the end of the file.
  const open = size === 0xffffffff || (size === 0 && there > 0);
  if (!open && size > there)
    throw new HearingError("clip_truncated", `Expected ${size} bytes of sound for the clip, got ${there}: the file ends early.`);
  const frameSize = (format.bits / 8) * format.channels;
  const frames = Math.floor((open ? there : size) / frameSize);
  if (frames === 0) throw new HearingError("clip_empty", "Expected sound for the clip, got no samples.");
  if (frames / format.rate > MAX_CLIP_SECONDS)
    throw new HearingError(
      "clip_too_long",
      `Expected at most ${MAX_CLIP_SECONDS} seconds for a clip, got ${Math.round(frames / format.rate)}.`,
    );
  return { pcm: mixDown(view, at, frames, format), rate: format.rate };
}

/** Write mono samples (-1..1, clipped beyond) as a 16-bit PCM WAV file. */
export function writeWav({ pcm, rate }: Sound): Uint8Array {
  const bytes = new Uint8Array(44 + pcm.length * 2);
  const view = new DataView(bytes.buffer);
  const text = (at: number, value: string) => {
    for (let i = 0; i < value.length; i += 1) view.setUint8(at + i, value.charCodeAt(i));
  };
  text(0, "RIFF");
  view.setUint32(4, 36 + pcm.length * 2, true);
  text(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, PCM, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, rate, true);
  view.setUint32(28, rate * 2, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  text(36, "data");
  view.setUint32(40, pcm.length * 2, true);
  for (let i = 0; i < pcm.length; i += 1) {
    const sample = Math.max(-1, Math.min(1, pcm[i] ?? 0));
    view.setInt16(44 + i * 2, Math.round(sample * 32767), true);
  }
  return bytes;
}
