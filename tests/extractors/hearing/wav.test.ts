// WAV reading against files written by sox (an independent implementation) is in human.test.ts; here layouts by the RIFF
// specification (Microsoft, "Multimedia Programming Interface and Data Specifications 1.0", 1991).
import { describe, expect, it } from "vitest";
import { HearingError, readWav, writeWav } from "../../../extractors/hearing/index.ts";

interface Layout {
  readonly tag?: number;
  readonly channels?: number;
  readonly rate?: number;
  readonly bits?: number;
  readonly data: Uint8Array;
  readonly declared?: number;
  readonly extra?: Uint8Array;
  readonly extensible?: number;
}

function wav({ tag = 1, channels = 1, rate = 16000, bits = 16, data, declared, extra, extensible }: Layout): Uint8Array {
  const format = new DataView(new ArrayBuffer(extensible === undefined ? 16 : 40));
  format.setUint16(0, extensible === undefined ? tag : 0xfffe, true);
  format.setUint16(2, channels, true);
  format.setUint32(4, rate, true);
  format.setUint32(8, (rate * channels * bits) / 8, true);
  format.setUint16(12, (channels * bits) / 8, true);
  format.setUint16(14, bits, true);
  if (extensible !== undefined) format.setUint16(24, extensible, true);
  const chunk = (name: string, body: Uint8Array, size = body.length) => {
    const head = new Uint8Array(8);
    head.set(new TextEncoder().encode(name));
    new DataView(head.buffer).setUint32(4, size, true);
    return [head, body, new Uint8Array(body.length % 2)];
  };
  const parts = [
    new TextEncoder().encode("RIFF\0\0\0\0WAVE"),
    ...chunk("fmt ", new Uint8Array(format.buffer)),
    ...(extra === undefined ? [] : chunk("LIST", extra)),
    ...chunk("data", data, declared),
  ];
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}

const int16 = (...samples: number[]) => new Uint8Array(Int16Array.from(samples).buffer);

describe("readWav", () => {
  const cases: readonly (readonly [string, Layout, readonly number[], number])[] = [
    ["16-bit mono", { data: int16(0, 16384, -32768) }, [0, 0.5, -1], 16000],
    ["16-bit stereo is mixed", { channels: 2, data: int16(16384, 0, -16384, 16384) }, [0.25, 0], 16000],
    ["8-bit is unsigned", { bits: 8, data: Uint8Array.of(128, 192, 0) }, [0, 0.5, -1], 16000],
    ["24-bit", { bits: 24, data: Uint8Array.of(0, 0, 0x40, 0, 0, 0x80) }, [0.5, -1], 16000],
    ["32-bit", { bits: 32, data: new Uint8Array(Int32Array.of(1 << 30).buffer) }, [0.5], 16000],
    ["float", { tag: 3, bits: 32, data: new Uint8Array(Float32Array.of(0.25, -0.75).buffer) }, [0.25, -0.75], 16000],
    ["extensible PCM", { extensible: 1, data: int16(16384) }, [0.5], 16000],
    ["8 kHz", { rate: 8000, data: int16(16384) }, [0.5], 8000],
    ["96 kHz", { rate: 96000, data: int16(16384) }, [0.5], 96000],
    ["another chunk of odd length first", { extra: Uint8Array.of(1, 2, 3), data: int16(16384) }, [0.5], 16000],
    ["a size left open by a streaming writer", { declared: 0xffffffff, data: int16(16384, 0) }, [0.5, 0], 16000],
  ];
  it.each(cases)("%s", (_name, layout, samples, rate) => {
    const read = readWav(wav(layout));
    expect([...read.pcm]).toEqual(samples);
    expect(read.rate).toBe(rate);
  });

  const wrong: readonly (readonly [string, Uint8Array, string])[] = [
    ["nothing at all", new Uint8Array(0), "clip_empty"],
    ["a picture", Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 0, 0, 0), "clip_not_wav"],
    ["a file cut short", wav({ data: int16(1, 2, 3), declared: 600 }), "clip_truncated"],
    ["a header alone", wav({ data: int16() }).subarray(0, 36), "clip_truncated"],
    ["a bare RIFF mark", new TextEncoder().encode("RIFF"), "clip_not_wav"],
    ["no samples", wav({ data: int16() }), "clip_empty"],
    ["a compressed encoding", wav({ tag: 0x55, data: int16(1) }), "clip_encoding_unknown"],
    ["a rate of nonsense", wav({ rate: 300, data: int16(1) }), "clip_rate_unusable"],
    ["no channels", wav({ channels: 0, data: int16(1) }), "clip_channels_unusable"],
    ["ten minutes", wav({ rate: 8000, bits: 8, data: new Uint8Array(8000 * 600) }), "clip_too_long"],
  ];
  it.each(wrong)("refuses %s", (_name, bytes, code) => {
    try {
      readWav(bytes);
      expect.unreachable("it was read");
    } catch (error) {
      expect(error).toBeInstanceOf(HearingError);
      expect((error as HearingError).code).toBe(code);
      expect((error as HearingError).message).toMatch(/^Expected .*, got .*\.$/);
    }
  });

  it("reads back what it wrote to half a step of 16 bits", () => {
    const pcm = Float32Array.from({ length: 500 }, (_, i) => Math.sin(i / 7) * 0.9);
    const read = readWav(writeWav({ pcm, rate: 16000 }));
    expect(Math.max(...read.pcm.map((sample, i) => Math.abs(sample - (pcm[i] ?? 0))))).toBeLessThan(1 / 20000);
  });
});
