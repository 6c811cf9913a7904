// The ear's worker from the page's side: clips in, what was heard and what it comes to out. One that cannot load is not asked again.
import type { EarAnswer, EarRequest } from "../../extractors/hearing/browser-messages.ts";
import type { Heard, HearOptions, LearntVoice, Speaker } from "../../extractors/hearing/index.ts";
import type { KnownPhrase } from "../../extractors/hearing/types.ts";
import type { Parsed } from "../../shared/events/reading.ts";
import { BenchFault } from "./fault.ts";

export interface HeardClip {
  readonly heard: Heard;
  readonly parsed: Parsed;
}

interface Waiting<T> {
  resolve(answer: T): void;
  reject(error: Error): void;
  /** Told the words at first sight. */
  readonly sight?: (text: string) => void;
}

/** A clip that is being heard. */
export interface HearingClip {
  /** What was heard; undefined when it was left before its end. */
  readonly heard: Promise<HeardClip | undefined>;
  /** The sentence went on: leave it. */
  leave(): void;
}

export class WorkerEar {
  readonly #worker: Worker;
  readonly #waiting = new Map<number, Waiting<HeardClip | undefined>>();
  readonly #fitting = new Map<number, Waiting<Speaker>>();
  readonly #failed: (fault: BenchFault) => void;
  readonly #learnt: (learnt: LearntVoice) => void;
  #speaker: Speaker | undefined;
  #next = 0;
  #fault: BenchFault | undefined;
  #settle: { resolve(): void; reject(fault: BenchFault): void } | undefined;
  /** Resolves when the model is loaded; rejects with a BenchFault. */
  readonly ready: Promise<void>;

  /**
   * @param failed called when the worker cannot go on
   * @param learnt called when it has learnt more of the voice it listens to
   */
  constructor(failed: (fault: BenchFault) => void = () => {}, learnt: (learnt: LearntVoice) => void = () => {}) {
    this.#failed = failed;
    this.#learnt = learnt;
    this.#worker = new Worker(new URL("../../extractors/hearing/browser-worker.ts", import.meta.url), {
      type: "module",
      name: "ear",
    });
    this.ready = new Promise((resolve, reject) => {
      this.#settle = { resolve, reject };
    });
    this.ready.catch(() => undefined);
    this.#worker.onerror = (event) => this.#die(event.message);
    this.#worker.onmessageerror = () => this.#die("a message could not be read");
    this.#worker.onmessage = ({ data }: MessageEvent<EarAnswer>) => this.#take(data);
    this.#post({ type: "open", modelBase: new URL("/model/", location.origin).href });
  }

  #post(request: EarRequest): void {
    this.#worker.postMessage(request);
  }

  #die(why: string): void {
    this.#fault ??= new BenchFault("ear_failed", why);
    this.#refuseAll(this.#fault);
    this.#settle?.reject(this.#fault);
    this.#failed(this.#fault);
  }

  #refuseAll(error: Error): void {
    for (const { reject } of [...this.#waiting.values(), ...this.#fitting.values()]) reject(error);
    this.#waiting.clear();
    this.#fitting.clear();
  }

  #take(answer: EarAnswer): void {
    if (answer.type === "ready") this.#settle?.resolve();
    else if (answer.type === "failed" && answer.code === "ear_not_loaded") this.#die(answer.message);
    // One clip that could not be heard does not stop the shift.
    else if (answer.type === "failed") this.#refuseAll(new Error(answer.message));
    else if (answer.type === "learnt") this.#learnt(answer.learnt);
    else if (answer.type === "sighted") this.#waiting.get(answer.id)?.sight?.(answer.text);
    else if (answer.type === "calibrated") {
      this.#fitting.get(answer.id)?.resolve(answer.speaker);
      this.#fitting.delete(answer.id);
    } else {
      const { id } = answer;
      this.#waiting.get(id)?.resolve(answer.type === "heard" ? { heard: answer.heard, parsed: answer.parsed } : undefined);
      this.#waiting.delete(id);
    }
  }

  /** Get grammar and dictionary ready for what is open now, so that the next clip does not wait for them. */
  prepare({ spec, context, speaker }: HearOptions): void {
    // A profile is too large to go with every sentence.
    if (speaker !== this.#speaker) this.#post({ type: "speaker", speaker });
    this.#speaker = speaker;
    this.#post({ type: "context", spec, context });
  }

  /** Hear a clip; `sight` is told the words at first sight, which are never for the log. */
  hear(pcm: Float32Array, rate: number, options: HearOptions, sight?: (text: string) => void): HearingClip {
    const { spec: _spec, context: _context, speaker: _speaker, ...growing } = options;
    if (this.#fault !== undefined) return { heard: Promise.reject(this.#fault), leave: () => undefined };
    const id = this.#next++;
    this.prepare(options);
    const heard = new Promise<HeardClip | undefined>((resolve, reject) => {
      this.#waiting.set(id, { resolve, reject, ...(sight === undefined ? {} : { sight }) });
      this.#post({ type: "hear", id, pcm, rate, growing });
    });
    const leave = () => {
      if (this.#waiting.has(id)) this.#post({ type: "leave", id });
    };
    return { heard, leave };
  }

  /** A doubtful sentence was confirmed by hand. */
  confirm(sentence: number): void {
    this.#post({ type: "confirmed", sentence });
  }

  /** Fit a person from phrases read aloud; takes some seconds. */
  calibrate(name: string, phrases: readonly KnownPhrase[], options: HearOptions): Promise<Speaker> {
    if (this.#fault !== undefined) return Promise.reject(this.#fault);
    const id = this.#next++;
    this.prepare(options);
    return new Promise((resolve, reject) => {
      this.#fitting.set(id, { resolve, reject });
      this.#post({ type: "calibrate", id, name, phrases });
    });
  }

  async close(): Promise<void> {
    this.#worker.terminate();
  }
}
