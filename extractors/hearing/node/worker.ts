// The worker thread that holds the ear: samples and context in, what was heard out. It is a thread of its own because the
// engine's module installs process-wide handlers and because decoding would block the server.
import { parentPort, workerData } from "node:worker_threads";
import createModule from "soundswallower";
import type { Spec } from "../../../shared/spec/spec.ts";
import { calibrate } from "../calibrate.ts";
import { Ear } from "../ear.ts";
import type { EngineFactory } from "../engine/module.ts";
import type { Heard, HearOptions, KnownPhrase, Speaker } from "../types.ts";
import { readModelFile } from "./model-files.ts";
import type { HearerSettings } from "./open-hearer.ts";

export type WorkerRequest = { readonly id: number } & (
  | { readonly what: "hear"; readonly pcm: Float32Array; readonly rate: number; readonly options: HearOptions }
  | { readonly what: "prepare"; readonly options: HearOptions }
  | { readonly what: "calibrate"; readonly name: string; readonly phrases: readonly KnownPhrase[]; readonly spec: Spec }
  | { readonly what: "close" }
);

const port = parentPort;
if (port === null) throw new Error("Expected to be started as a worker thread");

const { learns } = workerData as HearerSettings;
const ear = Ear.open(createModule as unknown as EngineFactory, readModelFile);

function answer(open: Ear, request: Exclude<WorkerRequest, { what: "close" }>): Heard | Speaker | true {
  if (request.what === "prepare") {
    open.prepare(request.options);
    return true;
  }
  if (request.what === "hear") return open.hear(request.pcm, request.rate, request.options);
  return calibrate(open, request.name, request.phrases, request.spec);
}

/** Nobody speaks to this ear while it works: it learns in one go. */
function learn(open: Ear, options: HearOptions): void {
  let learning = open.rest();
  while (learning === "learning") learning = open.rest();
  if (learning === "learnt") open.prepare(options);
}

port.on("message", (request: WorkerRequest) => {
  if (request.what === "close") {
    port.close();
    return;
  }
  const { id } = request;
  ear
    .then((open) => {
      port.postMessage({ id, done: answer(open, request) });
      if (request.what === "hear" && learns) learn(open, request.options);
    })
    .catch((error: unknown) => port.postMessage({ id, error: error instanceof Error ? error.message : String(error) }));
});
