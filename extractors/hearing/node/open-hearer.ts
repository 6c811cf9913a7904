// The ear for Node: a worker thread behind the `Hearer` interface.
import { Worker } from "node:worker_threads";
import { HearingError } from "../errors.ts";
import type { Heard, Hearer } from "../types.ts";

interface Waiting {
  resolve(heard: Heard): void;
  reject(error: Error): void;
}

/** The worker's file beside this one, and what Node needs to run it: source needs the TypeScript loader, a build does not. */
function startWorker(): Worker {
  if (import.meta.url.endsWith(".ts")) {
    // Registered from inside the thread: flags given to a thread of a test runner's fork do not reach its loader.
    const entry = new URL("./worker.ts", import.meta.url).href;
    const code = `import("tsx/esm/api").then(({ register }) => { register(); return import(${JSON.stringify(entry)}); }).catch((error) => { throw error; });`;
    return new Worker(code, { eval: true });
  }
  return new Worker(new URL("./worker.js", import.meta.url));
}

class ThreadHearer implements Hearer {
  readonly #worker: Worker;
  readonly #waiting = new Map<number, Waiting>();
  #next = 0;
  #failed: HearingError | undefined;

  constructor() {
    this.#worker = startWorker();
    this.#worker.on("message", ({ id, heard, error }: { id: number; heard?: Heard; error?: string }) => {
      const waiting = this.#waiting.get(id);
      this.#waiting.delete(id);
      if (heard !== undefined) waiting?.resolve(heard);
      else waiting?.reject(new HearingError("hearer_failed", `Expected the clip to be heard, got: ${error}`));
    });
    this.#worker.on("error", (error) => this.#fail(error instanceof Error ? error.message : String(error)));
    this.#worker.on("exit", (code) => this.#fail(`the worker ended with code ${code}`));
    // An idle ear does not keep the process alive.
    this.#worker.unref();
  }

  #fail(why: string): void {
    this.#failed = new HearingError("hearer_failed", `Expected the recogniser to run, got: ${why}`);
    for (const { reject } of this.#waiting.values()) reject(this.#failed);
    this.#waiting.clear();
    this.#worker.unref();
  }

  async hear(pcm: Float32Array, rate: number, options: Parameters<Hearer["hear"]>[2]): Promise<Heard> {
    if (this.#failed !== undefined) throw this.#failed;
    const id = this.#next;
    this.#next += 1;
    this.#worker.ref();
    try {
      return await new Promise<Heard>((resolve, reject) => {
        this.#waiting.set(id, { resolve, reject });
        this.#worker.postMessage({ id, pcm, rate, options });
      });
    } finally {
      if (this.#waiting.size === 0) this.#worker.unref();
    }
  }

  async close(): Promise<void> {
    await this.#worker.terminate();
  }
}

/** Start an ear in a thread of its own. The first `hear` waits until the model is loaded (about a second). */
export function openHearer(): Hearer {
  return new ThreadHearer();
}
