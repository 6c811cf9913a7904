// The ear for Node: a worker thread behind the `Hearer` interface.
import { Worker } from "node:worker_threads";
import { HearingError } from "../errors.ts";
import type { Heard, Hearer, HearOptions } from "../types.ts";

interface Waiting {
  resolve(done: unknown): void;
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
  readonly #waiting = new Map<number, Waiting>();
  #worker: Worker | undefined;
  #next = 0;
  #failed: HearingError | undefined;
  #ended = false;

  /** The thread; it starts when first asked: a shop whose phones hear for themselves needs none. */
  #started(): Worker {
    if (this.#worker !== undefined) return this.#worker;
    const worker = startWorker();
    worker.on("message", ({ id, done, error }: { id: number; done?: unknown; error?: string }) => {
      const waiting = this.#waiting.get(id);
      this.#waiting.delete(id);
      if (done !== undefined) waiting?.resolve(done);
      else waiting?.reject(new HearingError("hearer_failed", `Expected the clip to be heard, got: ${error}`));
    });
    worker.on("error", (error) => this.#fail(error instanceof Error ? error.message : String(error)));
    worker.on("exit", (code) => {
      this.#ended = true;
      this.#fail(`the worker ended with code ${code}`);
    });
    // An idle ear does not keep the process alive.
    worker.unref();
    this.#worker = worker;
    return worker;
  }

  #fail(why: string): void {
    this.#failed = new HearingError("hearer_failed", `Expected the recogniser to run, got: ${why}`);
    for (const { reject } of this.#waiting.values()) reject(this.#failed);
    this.#waiting.clear();
    this.#worker?.unref();
  }

  async #ask<T>(request: Record<string, unknown>): Promise<T> {
    if (this.#failed !== undefined) throw this.#failed;
    const id = this.#next;
    this.#next += 1;
    const worker = this.#started();
    worker.ref();
    try {
      return await new Promise<T>((resolve, reject) => {
        this.#waiting.set(id, { resolve: resolve as (done: unknown) => void, reject });
        worker.postMessage({ id, ...request });
      });
    } finally {
      if (this.#waiting.size === 0) worker.unref();
    }
  }

  hear(pcm: Float32Array, rate: number, options: HearOptions): Promise<Heard> {
    return this.#ask({ what: "hear", pcm, rate, options });
  }

  async prepare(options: HearOptions): Promise<void> {
    await this.#ask({ what: "prepare", options });
  }

  /** Who still waits for a clip is refused. */
  async close(): Promise<void> {
    this.#fail("it was closed");
    if (!this.#ended) await this.#worker?.terminate();
  }
}

/** An ear in a thread of its own. The first `hear` waits until the network is loaded. */
export function openHearer(): Hearer {
  return new ThreadHearer();
}
