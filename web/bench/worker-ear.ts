// The ear's worker from the page's side: clips in, what was heard and what it comes to out. One that cannot load is not asked again.
import type { EarAnswer, EarRequest } from "../../extractors/hearing/browser-messages.ts";
import type { Heard, HearOptions } from "../../extractors/hearing/index.ts";
import type { Parsed } from "../../shared/events/reading.ts";
import { BenchFault } from "./fault.ts";

export interface HeardClip {
  readonly heard: Heard;
  readonly parsed: Parsed;
}

interface Waiting {
  resolve(answer: HeardClip | undefined): void;
  reject(error: Error): void;
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
  readonly #waiting = new Map<number, Waiting>();
  readonly #failed: (fault: BenchFault) => void;
  #next = 0;
  #fault: BenchFault | undefined;
  #settle: { resolve(): void; reject(fault: BenchFault): void } | undefined;
  /** Resolves when the network is loaded; rejects with a BenchFault. */
  readonly ready: Promise<void>;

  /** @param failed called when the worker cannot go on */
  constructor(failed: (fault: BenchFault) => void = () => {}) {
    this.#failed = failed;
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
    for (const { reject } of this.#waiting.values()) reject(this.#fault);
    this.#waiting.clear();
    this.#settle?.reject(this.#fault);
    this.#failed(this.#fault);
  }

  #take(answer: EarAnswer): void {
    if (answer.type === "ready") this.#settle?.resolve();
    else if (answer.type === "failed" && answer.id === undefined) this.#die(answer.message);
    else if (answer.id !== undefined) {
      const waiting = this.#waiting.get(answer.id);
      this.#waiting.delete(answer.id);
      // One clip that could not be heard does not stop the shift.
      if (answer.type === "failed") waiting?.reject(new Error(answer.message));
      else waiting?.resolve(answer.type === "heard" ? { heard: answer.heard, parsed: answer.parsed } : undefined);
    }
  }

  /** Get the grammar of what is open now ready, so that the next clip does not wait for it. */
  prepare({ spec, context }: HearOptions): void {
    this.#post({ type: "context", spec, context });
  }

  /** Hear a clip. */
  hear(pcm: Float32Array, rate: number, options: HearOptions): HearingClip {
    if (this.#fault !== undefined) return { heard: Promise.reject(this.#fault), leave: () => undefined };
    const id = this.#next++;
    this.prepare(options);
    const heard = new Promise<HeardClip | undefined>((resolve, reject) => {
      this.#waiting.set(id, { resolve, reject });
      this.#post({ type: "hear", id, pcm, rate });
    });
    const leave = () => {
      if (this.#waiting.has(id)) this.#post({ type: "leave", id });
    };
    return { heard, leave };
  }

  async close(): Promise<void> {
    this.#worker.terminate();
  }
}
