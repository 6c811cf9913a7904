// Frames of the microphone in, sentences out, numbered. Shut while a sound of ours plays; a sentence whose beginning was lost under
// that sound is marked, because half a sentence reads as another one.
import { type EndpointEvent, Endpointer } from "../../extractors/hearing/endpoint.ts";

export interface Sentence {
  /** Counts up: tells a sentence's preview from the next one's. */
  readonly number: number;
  readonly pcm: Float32Array;
  readonly rate: number;
  /** Where its last loud frame ended, seconds of sound since the start. */
  readonly end: number;
  /** `performance.now()` of that frame. */
  readonly lastLoud: number;
  /** False while it may still go on. */
  readonly over: boolean;
  readonly clipped: boolean;
}

export interface IntakeListener {
  /** Whether a sound of ours may be in the microphone now. */
  shut(): boolean;
  talking(on: boolean): void;
  sentence(sentence: Sentence): void;
  /** A sentence goes on: what was said of it up to now. */
  growing?(number: number, pcm: Float32Array): void;
  /** What was given as a sentence that may be over went on. */
  wentOn?(number: number): void;
}

/** Speech that is under way so soon after the ear was opened began before it. */
const CLIPPED_MS = 220;

/** A microphone so new does not know its room: what it is opened upon may be speech under way, unless quiet came before it. */
const NEW_SECONDS = 2;
const LEAST_LEAD_SECONDS = 0.12;

/** Quiet for so long may be the end of a sentence: worth a first look at it, never its end. */
const LULL_SECONDS = 0.12;

/** So often what was said up to now is heard, to be shown. */
const GROWING_SECONDS = 0.6;

export class Intake {
  readonly #rate: number;
  readonly #listener: IntakeListener;
  readonly #endpointer: Endpointer;
  #number = 0;
  #clock = 0;
  #openMs = 0;
  #lull: number | undefined;
  #clipped = false;

  constructor(rate: number, listener: IntakeListener) {
    this.#rate = rate;
    this.#listener = listener;
    this.#endpointer = new Endpointer({ rate, pauseSeconds: LULL_SECONDS, growingSeconds: GROWING_SECONDS });
  }

  /** Number of the sentence that was started last. */
  get current(): number {
    return this.#number;
  }

  /** Whether someone speaks or may be about to: no moment for a sound of ours. */
  get stirring(): boolean {
    return this.#endpointer.stirring;
  }

  /** Where the sentence under way may be over, seconds of sound; undefined while it goes on. */
  get lull(): number | undefined {
    return this.#lull;
  }

  /** End the sentence that may be over at `end`, because nothing more can belong to it; one that went on is left alone. */
  cut(end: number): void {
    if (end !== this.#lull) return;
    for (const event of this.#endpointer.cut()) this.#give(event, performance.now());
  }

  /** Forget the sentence under way. */
  reset(): void {
    this.#endpointer.drop();
    this.#lull = undefined;
    this.#listener.talking(false);
  }

  feed(frame: Float32Array): void {
    if (this.#listener.shut()) {
      this.reset();
      this.#openMs = 0;
      return;
    }
    this.#openMs += (frame.length / this.#rate) * 1000;
    const now = performance.now();
    this.#clock += frame.length / this.#rate;
    for (const event of this.#endpointer.push(frame)) this.#give(event, now);
  }

  #give(event: EndpointEvent, now: number): void {
    if (event.kind === "start") {
      this.#number += 1;
      this.#clipped = this.#openMs < CLIPPED_MS || (this.#clock < NEW_SECONDS && event.lead < LEAST_LEAD_SECONDS);
      this.#listener.talking(true);
      return;
    }
    if (event.kind === "growing") {
      this.#listener.growing?.(this.#number, event.pcm);
      return;
    }
    if (event.kind === "resumed") {
      this.#lull = undefined;
      this.#listener.wentOn?.(this.#number);
      return;
    }
    const over = event.kind === "utterance";
    this.#lull = over ? undefined : event.end;
    if (over) this.#listener.talking(false);
    // The endpointer counts the seconds of the frames it was given; so does the clock here.
    const lastLoud = now - (this.#clock - event.end) * 1000;
    const { pcm, end } = event;
    this.#listener.sentence({ number: this.#number, pcm, rate: this.#rate, end, lastLoud, over, clipped: this.#clipped });
  }
}
