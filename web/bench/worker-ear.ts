// The worker ear behind the `Hearer` interface. A worker that fails once is not asked again.
import type { Heard, Hearer, HearOptions } from "../../extractors/hearing/index.ts";
import { BenchFault } from "./fault.ts";

interface Answer {
  readonly ready?: true;
  readonly failed?: string;
  readonly id?: number;
  readonly heard?: Heard;
  readonly error?: string;
}
interface Waiting {
  resolve(heard: Heard): void;
  reject(error: Error): void;
}

export class WorkerEar implements Hearer {
  readonly #worker: Worker;
  readonly #waiting = new Map<number, Waiting>();
  #next = 0;
  #fault: BenchFault | undefined;
  /** Resolves when the model is loaded; rejects with a BenchFault. */
  readonly ready: Promise<void>;

  /** @param failed called once when the worker stops working */
  constructor(failed: (fault: BenchFault) => void = () => {}) {
    this.#worker = new Worker(new URL("./ear.worker.ts", import.meta.url), { type: "module", name: "ear" });
    this.ready = new Promise((resolve, reject) => {
      const fail = (why: string) => {
        const fault = new BenchFault("ear_failed", why);
        this.#fault ??= fault;
        for (const { reject: refuse } of this.#waiting.values()) refuse(fault);
        this.#waiting.clear();
        reject(fault);
        failed(fault);
      };
      this.#worker.onerror = (event) => fail(event.message);
      this.#worker.onmessageerror = () => fail("a message could not be read");
      this.#worker.onmessage = ({ data }: MessageEvent<Answer>) => {
        if (data.ready === true) resolve();
        else if (data.failed !== undefined) fail(data.failed);
        else this.#answer(data);
      };
    });
    this.ready.catch(() => undefined);
  }

  #answer({ id = -1, heard, error }: Answer): void {
    const waiting = this.#waiting.get(id);
    this.#waiting.delete(id);
    if (heard !== undefined) waiting?.resolve(heard);
    else waiting?.reject(new BenchFault("ear_failed", error));
  }

  hear(pcm: Float32Array, rate: number, options: HearOptions): Promise<Heard> {
    if (this.#fault !== undefined) return Promise.reject(this.#fault);
    const id = this.#next;
    this.#next += 1;
    return new Promise((resolve, reject) => {
      this.#waiting.set(id, { resolve, reject });
      this.#worker.postMessage({ id, pcm, rate, options });
    });
  }

  async close(): Promise<void> {
    this.#worker.terminate();
  }
}
