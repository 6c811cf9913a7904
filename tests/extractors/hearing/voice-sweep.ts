// A sound that any program can make again: a tone that rises from 200 to 3400 Hz in half a second, over a quiet hum.

/** Whole 16-bit steps at 16 kHz, -1..1, so that a WAV of it loses nothing. */
export function sweep(): Float32Array {
  const rate = 16_000;
  return Float32Array.from({ length: rate / 2 }, (_, i) => {
    const t = i / rate;
    const tone = Math.sin(2 * Math.PI * (200 * t + 3200 * t * t));
    const hum = Math.sin(2 * Math.PI * 120 * t);
    return Math.round(8000 * tone * (1 - t) + 300 * hum) / 32_768;
  });
}
