// The recogniser's module with the acoustic model's bytes in its memory: decoders are set up from them as often as wanted, with the
// steps of the library's own set-up, so that an ear's decoders share the model and one can be opened again with other means.
import type { GaussianFiles, Model } from "./model.ts";
import type { EngineModule, RawDecoder } from "./module.ts";

/** No filler words but silence: the model's noise words swallow speech that the grammar does not have. */
const NOISE_DICTIONARY = "<s> SIL\n</s> SIL\n<sil> SIL\n";

interface Place {
  readonly at: number;
  readonly length: number;
}

/** Gaussians that decoders can be opened with: the weights lie in the module's memory. */
export interface HeldGaussians {
  readonly files: GaussianFiles;
  readonly weights: Place;
}

const sure = (done: boolean, what: string): void => {
  if (!done) throw new Error(`Expected ${what} to load, got a refusal`);
};

export class Engine {
  readonly module: EngineModule;
  readonly model: Model;
  /** Decoders point into these two for as long as they live. */
  readonly #mdef: Place;
  readonly #own: HeldGaussians;

  constructor(module: EngineModule, model: Model) {
    this.module = module;
    this.model = model;
    this.#mdef = this.#put(model.files.mdef);
    this.#own = { files: model.files, weights: this.#put(model.files.sendump) };
  }

  #put(bytes: Uint8Array): Place {
    const at = this.module._malloc(bytes.length + 1);
    this.module.HEAPU8.set(bytes, at);
    this.module.HEAPU8[at + bytes.length] = 0;
    return { at, length: bytes.length };
  }

  #opened<T>({ at, length }: Place, use: (file: number) => T): T {
    const file = this.module._s3file_init(at, length);
    try {
      return use(file);
    } finally {
      this.module._s3file_free(file);
    }
  }

  /** Hand bytes to `use` as one of the module's files. The library does not free the bytes of a file: this does. */
  withFile<T>(bytes: Uint8Array, use: (file: number) => T): T {
    const place = this.#put(bytes);
    try {
      return this.#opened(place, use);
    } finally {
      this.module._free(place.at);
    }
  }

  /** The same for text. */
  withText<T>(text: string, use: (file: number) => T): T {
    return this.withFile(new TextEncoder().encode(text), use);
  }

  /** Get ready for decoders with these Gaussians, or the model's own. To be let go once they are closed. */
  hold(files: GaussianFiles | undefined): HeldGaussians {
    if (files === undefined) return this.#own;
    return { files, weights: files.sendump === this.model.files.sendump ? this.#own.weights : this.#put(files.sendump) };
  }

  letGo({ weights }: HeldGaussians): void {
    if (weights !== this.#own.weights) this.module._free(weights.at);
  }

  /** Load the model with these Gaussians, and the dictionary's text, into a bare decoder. */
  load(raw: RawDecoder, dictionary: string, { files: own, weights }: HeldGaussians = this.#own): void {
    const { module } = this;
    const { files } = this.model;
    const decoder = raw.cdecoder;
    sure(module._decoder_init_cleanup(decoder) >= 0, "the decoder");
    sure(module._decoder_init_fe(decoder) !== 0, "the front end");
    sure(module._decoder_init_feat_s3file(decoder, 0) !== 0, "the features");
    sure(module._decoder_init_acmod_pre(decoder) !== 0, "the acoustic model");
    const mdef = this.#opened(this.#mdef, (file) => module._bin_mdef_read_s3file(file, 0));
    sure(mdef !== 0, "the model's definition");
    module._set_mdef(decoder, mdef);
    const logmath = module._decoder_logmath(decoder);
    const floor = raw.get_config("tmatfloor");
    const tmat = this.withFile(files.transition_matrices, (file) => module._tmat_init_s3file(file, logmath, floor));
    sure(tmat !== 0, "the model's transitions");
    module._set_tmat(decoder, tmat);
    const gaussians = this.withFile(own.means, (mean) =>
      this.withFile(own.variances, (variance) =>
        this.#opened(weights, (weight) => module._load_gmm(decoder, mean, variance, 0, weight)),
      ),
    );
    sure(gaussians >= 0, "the model's Gaussians");
    sure(module._decoder_init_acmod_post(decoder) >= 0, "the scoring");
    const words = this.withText(dictionary, (own) =>
      this.withText(NOISE_DICTIONARY, (noise) => module._decoder_init_dict_s3file(decoder, own, noise)),
    );
    sure(words !== 0, "the dictionary");
    raw.initialized = true;
  }
}
