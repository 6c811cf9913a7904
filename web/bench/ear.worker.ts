// The browser's ear in a worker of its own: samples and context in, what was heard out.
import createModule from "soundswallower";
import { Ear } from "../../extractors/hearing/ear.ts";
import type { EngineFactory } from "../../extractors/hearing/engine/module.ts";
import type { HearOptions } from "../../extractors/hearing/types.ts";

export interface HearRequest {
  readonly id: number;
  readonly pcm: Float32Array;
  readonly rate: number;
  readonly options: HearOptions;
}

const base = new URL("/model/", self.location.origin).href;
const ear = Ear.open(createModule as unknown as EngineFactory, base);
ear.then(
  () => self.postMessage({ ready: true }),
  (error: unknown) => self.postMessage({ failed: error instanceof Error ? error.message : String(error) }),
);

self.onmessage = ({ data }: MessageEvent<HearRequest>) => {
  const { id, pcm, rate, options } = data;
  ear
    .then((open) => self.postMessage({ id, heard: open.hear(pcm, rate, options) }))
    .catch((error: unknown) => self.postMessage({ id, error: error instanceof Error ? error.message : String(error) }));
};
