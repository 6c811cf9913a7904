// Frames of a live microphone in, whole utterances out: where speech starts (with the moment before it) and where it ends.
// Works on frame energy against a floor that follows the room, so that a compressor coming on is room again in seconds.

export interface EndpointOptions {
  /** Samples a second of the frames. */
  readonly rate: number;
  /** Kept from before the first loud frame, so that no consonant is cut off. */
  readonly preRollSeconds?: number;
  /** Silence after which an utterance may be whole: it is offered as a pause. */
  readonly pauseSeconds?: number;
  /** Silence after which it is over. */
  readonly endSeconds?: number;
  readonly longestSeconds?: number;
  /** So often what was said of an utterance up to then is offered; never when left out. */
  readonly growingSeconds?: number;
}

export type EndpointEvent =
  /** `lead`: seconds of quiet that are kept from before it, against the room as it is known now; 0 where it began in sound. */
  | { readonly kind: "start"; readonly at: number; readonly lead: number }
  /** So much has been said; it goes on. */
  | { readonly kind: "growing"; readonly pcm: Float32Array }
  /** Quiet for a moment: the utterance so far. Call `cut` to end it here, or let it go on. */
  | { readonly kind: "pause"; readonly pcm: Float32Array; readonly start: number; readonly end: number }
  /** It was no end: the utterance that was offered goes on. */
  | { readonly kind: "resumed" }
  /** `start` and `end` of the speech, seconds since the first frame. */
  | { readonly kind: "utterance"; readonly pcm: Float32Array; readonly start: number; readonly end: number };

/** A frame from before an utterance; `level` in dB below full scale. */
interface Kept {
  readonly frame: Float32Array;
  readonly level: number;
  readonly loud: boolean;
  readonly seconds: number;
}

const SPEECH_ABOVE_FLOOR_DB = 9;
const STAYS_ABOVE_FLOOR_DB = 6;
const FAINTEST_DB = -62;
/** Loud this long within the last quarter second before it counts as speech: clicks and knocks are shorter. */
const START_SECONDS = 0.1;
const START_WINDOW_SECONDS = 0.25;
const FLOOR_RISE_DB_A_SECOND = 3;

/** Level of a frame, dB below full scale. */
export function levelOf(frame: Float32Array): number {
  let sum = 0;
  for (const sample of frame) sum += sample * sample;
  return 10 * Math.log10(sum / Math.max(1, frame.length) + 1e-10);
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

const isLoud = (level: number, floor: number, margin: number): boolean => level > Math.max(FAINTEST_DB, floor + margin);

/** Finds utterances in a stream of frames of equal length (10 to 30 ms each). */
export class Endpointer {
  readonly #rate: number;
  readonly #preRoll: number;
  readonly #pause: number;
  readonly #end: number;
  readonly #longest: number;
  readonly #growing: number;
  #floor: number | undefined;
  #clock = 0;
  #recent: Kept[] = [];
  #speech: Float32Array[] | undefined;
  #speechStart = 0;
  #lastLoud = 0;
  #offered = false;
  #offeredAt = 0;

  constructor(options: EndpointOptions) {
    this.#rate = options.rate;
    this.#preRoll = options.preRollSeconds ?? 0.3;
    this.#pause = options.pauseSeconds ?? 0.2;
    this.#end = options.endSeconds ?? 0.8;
    this.#longest = options.longestSeconds ?? 12;
    this.#growing = options.growingSeconds ?? Number.POSITIVE_INFINITY;
  }

  /** Whether an utterance is under way. */
  get inSpeech(): boolean {
    return this.#speech !== undefined;
  }

  /** Whether an utterance is under way or may be about to be: something was loud a moment ago. */
  get stirring(): boolean {
    return this.inSpeech || this.#recent.some(({ loud }) => loud);
  }

  /** Noise of the room, dB below full scale; undefined before the first frame. */
  get floor(): number | undefined {
    return this.#floor;
  }

  #followFloor(level: number, seconds: number): number {
    const floor = this.#floor ?? level;
    // Down at once, up slowly: speech is short, a machine stays.
    this.#floor = level < floor ? level * 0.3 + floor * 0.7 : Math.min(level, floor + FLOOR_RISE_DB_A_SECOND * seconds);
    return this.#floor;
  }

  /** Take one frame; gives what it brought about, most often nothing. */
  push(frame: Float32Array): readonly EndpointEvent[] {
    const seconds = frame.length / this.#rate;
    const level = levelOf(frame);
    const floor = this.#followFloor(level, seconds);
    this.#clock += seconds;
    const loud = isLoud(level, floor, this.inSpeech ? STAYS_ABOVE_FLOOR_DB : SPEECH_ABOVE_FLOOR_DB);
    return this.inSpeech ? this.#continue(frame, loud) : this.#wait({ frame, level, loud, seconds });
  }

  /** Quiet before the first loud frame that is kept. A frame that seemed quiet may not: the room was not known yet. */
  get #lead(): number {
    const floor = this.#floor ?? 0;
    const first = this.#recent.findIndex(({ level }) => isLoud(level, floor, SPEECH_ABOVE_FLOOR_DB));
    return this.#recent.slice(0, Math.max(0, first)).reduce((sum, { seconds }) => sum + seconds, 0);
  }

  #wait(latest: Kept): readonly EndpointEvent[] {
    this.#recent.push(latest);
    let kept = this.#recent.reduce((sum, entry) => sum + entry.seconds, 0);
    while (kept - (this.#recent[0]?.seconds ?? kept) > this.#preRoll + START_WINDOW_SECONDS)
      kept -= this.#recent.shift()?.seconds ?? 0;
    let loudSeconds = 0;
    let back = 0;
    for (let i = this.#recent.length - 1; i >= 0 && back < START_WINDOW_SECONDS; i -= 1) {
      const entry = this.#recent[i];
      if (entry === undefined) break;
      back += entry.seconds;
      if (entry.loud) loudSeconds += entry.seconds;
    }
    if (loudSeconds < START_SECONDS) return [];
    this.#speech = this.#recent.map((entry) => entry.frame);
    this.#speechStart = Math.max(0, this.#clock - back);
    this.#lastLoud = this.#clock;
    this.#offered = false;
    this.#offeredAt = this.#clock;
    const lead = this.#lead;
    this.#recent = [];
    return [{ kind: "start", at: this.#speechStart, lead }];
  }

  #continue(frame: Float32Array, loud: boolean): readonly EndpointEvent[] {
    const speech = this.#speech ?? [];
    speech.push(frame);
    const resumed = loud && this.#offered;
    if (loud) {
      this.#lastLoud = this.#clock;
      this.#offered = false;
    }
    if (resumed) return [{ kind: "resumed" }];
    if (loud && this.#clock - this.#offeredAt >= this.#growing) {
      this.#offeredAt = this.#clock;
      return [{ kind: "growing", pcm: joined(speech) }];
    }
    const quiet = this.#clock - this.#lastLoud;
    if (quiet >= this.#end || this.#clock - this.#speechStart >= this.#longest) return this.cut();
    if (quiet < this.#pause || this.#offered) return [];
    this.#offered = true;
    return [{ kind: "pause", pcm: joined(speech), start: this.#speechStart, end: this.#lastLoud }];
  }

  /** End the utterance here and give it; nothing when none is under way. */
  cut(): readonly EndpointEvent[] {
    const speech = this.#speech;
    if (speech === undefined) return [];
    this.#speech = undefined;
    return [{ kind: "utterance", pcm: joined(speech), start: this.#speechStart, end: this.#lastLoud }];
  }

  /** Forget what is under way, as while the loudspeaker speaks. */
  drop(): void {
    this.#speech = undefined;
    this.#recent = [];
  }
}
