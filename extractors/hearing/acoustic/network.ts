// The acoustic network: sound in, phone posteriors out. The same in a browser worker and a Node worker: the runtime is WebAssembly.
import { env, InferenceSession, Tensor } from "onnxruntime-web";
import { seeded } from "../audio/noise.ts";
import { PHONES } from "./phones.ts";
import type { Posteriors } from "./posteriors.ts";

/** Samples a second that the network takes. */
export const NETWORK_RATE = 16_000;

/** The network was trained on clips whose loudest sample lies between 3,000 and 27,000 of 32,768. */
const LOUDEST = 12_000;

/** Quiet put before and behind a clip, samples: it was trained on sentences with a moment of the room around them. */
const LEAD = 4000;
const TAIL = 6400;
/** Level of that room's hiss, of 32,768. */
const HISS = 5;

export class AcousticNetwork {
  readonly #session: InferenceSession;

  private constructor(session: InferenceSession) {
    this.#session = session;
  }

  /**
   * Load the network.
   * @param model bytes of the ONNX file
   * @param runtime URL below which the runtime's own files are served; where they lie in the installed package, when left out
   */
  static async open(model: Uint8Array, runtime?: string): Promise<AcousticNetwork> {
    // More threads need a page that is isolated from others; a sentence takes one a tenth of its length.
    env.wasm.numThreads = 1;
    if (runtime !== undefined) env.wasm.wasmPaths = runtime;
    return new AcousticNetwork(await InferenceSession.create(model, { executionProviders: ["wasm"] }));
  }

  /** Log posteriors of a clip: mono samples -1..1, 16,000 a second. */
  async posteriors(pcm: Float32Array): Promise<Posteriors> {
    let top = 1e-4;
    for (const sample of pcm) top = Math.max(top, Math.abs(sample));
    const random = seeded(1);
    const samples = Float32Array.from({ length: LEAD + pcm.length + TAIL }, () => (random() - 0.5) * HISS);
    pcm.forEach((sample, index) => {
      samples[LEAD + index] = (samples[LEAD + index] ?? 0) + (sample / top) * LOUDEST;
    });
    const { posteriors } = await this.#session.run({ samples: new Tensor("float32", samples, [1, samples.length]) });
    if (posteriors === undefined) throw new Error("Expected posteriors from the acoustic network, got none");
    const [, frames = 0, labels = 0] = posteriors.dims;
    if (labels !== PHONES.length + 1) throw new Error(`Expected ${PHONES.length + 1} labels a frame, got ${labels}`);
    return { values: posteriors.data as Float32Array, frames, labels };
  }

  async close(): Promise<void> {
    await this.#session.release();
  }
}
