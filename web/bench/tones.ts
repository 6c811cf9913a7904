// Short sounds that tell without looking: heard, taken, asked, refused, dead. Each has its own shape in pitch, not in loudness.

interface Note {
  /** Hertz, start and length in seconds. */
  readonly pitch: number;
  readonly at: number;
  readonly long: number;
}

export const TONES = {
  heard: [{ pitch: 660, at: 0, long: 0.06 }],
  accepted: [
    { pitch: 660, at: 0, long: 0.08 },
    { pitch: 990, at: 0.09, long: 0.12 },
  ],
  question: [
    { pitch: 740, at: 0, long: 0.1 },
    { pitch: 620, at: 0.13, long: 0.1 },
    { pitch: 740, at: 0.26, long: 0.1 },
  ],
  out: [
    { pitch: 330, at: 0, long: 0.16 },
    { pitch: 330, at: 0.22, long: 0.16 },
  ],
  dead: [
    { pitch: 220, at: 0, long: 0.3 },
    { pitch: 180, at: 0.35, long: 0.5 },
  ],
} as const satisfies Record<string, readonly Note[]>;
export type ToneName = keyof typeof TONES;

/** Play a tone; gives its length in seconds. */
export function playTone(context: AudioContext, name: ToneName): number {
  let length = 0;
  for (const { pitch, at, long } of TONES[name]) {
    const oscillator = new OscillatorNode(context, { frequency: pitch, type: "triangle" });
    const gain = new GainNode(context, { gain: 0 });
    const from = context.currentTime + at;
    gain.gain.setValueAtTime(0, from);
    gain.gain.linearRampToValueAtTime(0.4, from + 0.01);
    gain.gain.setValueAtTime(0.4, from + long - 0.02);
    gain.gain.linearRampToValueAtTime(0, from + long);
    oscillator.connect(gain).connect(context.destination);
    oscillator.start(from);
    oscillator.stop(from + long);
    length = Math.max(length, at + long);
  }
  return length;
}
