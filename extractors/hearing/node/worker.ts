// The worker thread that holds the ear: samples and context in, what was heard out. It is a thread of its own because the
// engine's module installs process-wide handlers and because decoding would block the server.
import { parentPort } from "node:worker_threads";
import createModule from "soundswallower";
import { Ear } from "../ear.ts";
import type { EngineFactory } from "../engine/module.ts";
import type { HearOptions } from "../types.ts";
import { modelFolder } from "./model-files.ts";

export interface HearRequest {
  readonly id: number;
  readonly pcm: Float32Array;
  readonly rate: number;
  readonly options: HearOptions;
}

const port = parentPort;
if (port === null) throw new Error("Expected to be started as a worker thread");

const ear = Ear.open(createModule as unknown as EngineFactory, modelFolder());

port.on("message", ({ id, pcm, rate, options }: HearRequest) => {
  ear
    .then((open) => port.postMessage({ id, heard: open.hear(pcm, rate, options) }))
    .catch((error: unknown) => port.postMessage({ id, error: error instanceof Error ? error.message : String(error) }));
});
