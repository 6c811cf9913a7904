// The worker thread that holds the ear: samples and context in, what was heard out. A thread of its own, because hearing would block
// the server. Requests are done in the order they came.
import { parentPort } from "node:worker_threads";
import { Ear } from "../ear.ts";
import type { HearOptions } from "../types.ts";
import { readNetwork } from "./model-files.ts";

export type WorkerRequest = { readonly id: number } & (
  | { readonly what: "hear"; readonly pcm: Float32Array; readonly rate: number; readonly options: HearOptions }
  | { readonly what: "prepare"; readonly options: HearOptions }
);

const port = parentPort;
if (port === null) throw new Error("Expected to be started as a worker thread");

const ear = readNetwork().then((network) => Ear.open(network));
let before: Promise<void> = Promise.resolve();

async function answer(request: WorkerRequest): Promise<void> {
  const { id } = request;
  try {
    const open = await ear;
    if (request.what === "hear") port?.postMessage({ id, done: await open.hear(request.pcm, request.rate, request.options) });
    else {
      open.prepare(request.options);
      port?.postMessage({ id, done: true });
    }
  } catch (error) {
    port?.postMessage({ id, error: error instanceof Error ? error.message : String(error) });
  }
}

port.on("message", (request: WorkerRequest) => {
  before = before.then(() => answer(request));
});
