// Where a sentence starts and ends: frames of sound in, events out. Follows the room's noise, keeps what came just before the
// first word, and tells a short quiet (worth a look at what was said) from a long one (the sentence is over).

export type Endpoint =
  | { readonly kind: "start" }
  /** Quiet for a moment: the sound so far, in case this was all of it. */
  | { readonly kind: "lull"; readonly pcm: Float32Array }
  /** Speech went on after a lull. */
  | { readonly kind: "onward" }
  | { readonly kind: "end"; readonly pcm: Float32Array };

export interface EndpointerOptions {
  readonly rate: number;
  /** Milliseconds kept before the first loud frame. */
  readonly before?: number;
  /** Milliseconds of quiet that make a lull, and that end the sentence: people pause between digits. */
  readonly lull?: number;
  readonly quiet?: number;
  /** Speech shorter than this is a knock. */
  readonly least?: number;
  readonly most?: number;
}

/** Above the room's noise by so many dB to start, by so many to go on. */
const START_DB = 10;
const STAY_DB = 6;
/** Nothing below this is speech at a bench microphone, dB below full scale. */
const FLOOR_DB = -58;
/** Dips and peaks of single frames are no ends and no starts. */
const FRAMES_TO_START = 4;
/** The room's noise is the softest it has been for so long: speech has gaps, a compressor has none. */
const NOISE_MS = 2000;
/** How far the softest frames lie below the noise's mean, dB. */
const NOISE_BIAS_DB = 1.5;
/** Nothing starts before the room has been heard for so long. */
const SETTLE_MS = 240;

export function levelDb(frame: Float32Array): number {
  let sum = 0;
  for (const sample of frame) sum += sample * sample;
  return 10 * Math.log10(sum / Math.max(1, frame.length) + 1e-10);
}

export class Endpointer {
  readonly #options: Required<EndpointerOptions>;
  #noise = -60;
  readonly #levels: number[] = [];
  #history: Float32Array[] = [];
  #sentence: Float32Array[] = [];
  #loudRun = 0;
  #voiced = 0;
  #quiet = 0;
  #lulled = false;
  #inside = false;
  /** Level of the last frame, dB below full scale, and whether it was loud enough to be speech. */
  level = -100;
  loud = false;

  constructor(options: EndpointerOptions) {
    this.#options = { before: 300, lull: 200, quiet: 700, least: 200, most: 12_000, ...options };
  }

  /** The room's noise as followed so far, dB below full scale. */
  get noise(): number {
    return this.#noise;
  }

  /** Forget the sentence under way. */
  reset(): void {
    this.#history = [];
    this.#endSentence();
  }

  /** Take in the next frame. Gives at most one event. */
  feed(frame: Float32Array): Endpoint | undefined {
    const ms = (frame.length / this.#options.rate) * 1000;
    this.level = levelDb(frame);
    this.#followNoise(ms);
    return this.#inside ? this.#inSentence(frame, ms) : this.#waiting(frame, ms);
  }

  #followNoise(ms: number): void {
    this.#levels.push(this.level);
    if (this.#levels.length * ms > NOISE_MS) this.#levels.shift();
    let softest = Number.POSITIVE_INFINITY;
    for (let i = 1; i < this.#levels.length; i += 1)
      softest = Math.min(softest, ((this.#levels[i - 1] ?? 0) + (this.#levels[i] ?? 0)) / 2);
    if (Number.isFinite(softest)) this.#noise = softest + NOISE_BIAS_DB;
  }

  #waiting(frame: Float32Array, ms: number): Endpoint | undefined {
    const loud = this.level > Math.max(FLOOR_DB, this.#noise + START_DB);
    this.loud = loud;
    this.#history.push(frame);
    const keep = Math.ceil(this.#options.before / ms) + FRAMES_TO_START;
    if (this.#history.length > keep) this.#history.shift();
    this.#loudRun = loud ? this.#loudRun + 1 : 0;
    if (this.#loudRun < FRAMES_TO_START || this.#levels.length * ms < SETTLE_MS) return undefined;
    this.#inside = true;
    this.#sentence = this.#history;
    this.#history = [];
    this.#voiced = FRAMES_TO_START * ms;
    this.#quiet = 0;
    this.#lulled = false;
    return { kind: "start" };
  }

  #inSentence(frame: Float32Array, ms: number): Endpoint | undefined {
    this.#sentence.push(frame);
    const loud = this.level > Math.max(FLOOR_DB, this.#noise + STAY_DB);
    this.loud = loud;
    if (loud) {
      this.#voiced += ms;
      this.#quiet = 0;
      if (this.#lulled) {
        this.#lulled = false;
        return { kind: "onward" };
      }
    } else this.#quiet += ms;
    const long = this.#sentence.length * ms >= this.#options.most;
    if (this.#quiet >= this.#options.quiet || long) return this.#end();
    if (this.#quiet >= this.#options.lull && !this.#lulled && this.#voiced >= this.#options.least) {
      this.#lulled = true;
      return { kind: "lull", pcm: joined(this.#sentence) };
    }
    return undefined;
  }

  #end(): Endpoint | undefined {
    const spoken = this.#voiced >= this.#options.least;
    const pcm = joined(this.#sentence);
    this.#endSentence();
    return spoken ? { kind: "end", pcm } : undefined;
  }

  #endSentence(): void {
    this.#sentence = [];
    this.#inside = false;
    this.#loudRun = 0;
    this.#voiced = 0;
    this.#quiet = 0;
    this.#lulled = false;
  }
}

function joined(frames: readonly Float32Array[]): Float32Array {
  const pcm = new Float32Array(frames.reduce((sum, frame) => sum + frame.length, 0));
  let at = 0;
  for (const frame of frames) {
    pcm.set(frame, at);
    at += frame.length;
  }
  return pcm;
}
