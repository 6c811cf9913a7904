// The recogniser with our own dictionary and grammars: samples at 16 kHz in, words with times and scores out.
import type { EngineModule, RawDecoder, Segment } from "./module.ts";

export const ENGINE_RATE = 16_000;

/** One recognised word: seconds from the clip's start, and its acoustic cost in natural-log units (0 is a perfect match). */
export interface DecodedWord {
  /** As in the grammar, role mark included. */
  readonly word: string;
  readonly start: number;
  readonly end: number;
  readonly cost: number;
}

export interface Decoded {
  readonly words: readonly DecodedWord[];
  /** The whole path's cost, silences included, in natural-log units; undefined when no path reached the end. */
  readonly cost: number | undefined;
}

/** The library's log unit: base 1.0001, shifted right by ten bits in acoustic scores. */
const SCORE_UNIT = 1024 * Math.log(1.0001);
const PROBABILITY_UNIT = 1 / Math.log(1.0001);

/**
 * How the recogniser searches. Weights of the grammar count fourfold, short words are held back, and the beams are wide:
 * most of a decode's time goes by the grammar's size, so that a narrow beam would only lose sentences.
 */
const SEARCH = { lw: 4, wip: 0.2, beam: 1e-64, pbeam: 1e-64, wbeam: 1e-40, maxhmmpf: 2500 };

/** No filler words but silence: the model's noise words swallow speech that the grammar does not have. */
const NOISE_DICTIONARY = "<s> SIL\n</s> SIL\n<sil> SIL\n";

export class Decoder {
  readonly #module: EngineModule;
  readonly #raw: RawDecoder;
  readonly #scoreAt: number;

  private constructor(module: EngineModule, raw: RawDecoder) {
    this.#module = module;
    this.#raw = raw;
    this.#scoreAt = module._malloc(4);
  }

  /** Load the acoustic model from `hmm` (a folder or URL prefix) with the given dictionary text. */
  static async open(
    module: EngineModule,
    hmm: string,
    dictionary: string,
    options: Record<string, string | number | boolean> = {},
  ) {
    const raw = new module.Decoder({ hmm, samprate: ENGINE_RATE, loglevel: "FATAL", ...SEARCH, ...options });
    // The library reads its dictionary from a file; ours is made in memory, so this one step of its set-up is replaced.
    raw.init_dict = () => {
      const dict = textFile(module, dictionary);
      const noise = textFile(module, NOISE_DICTIONARY);
      if (module._decoder_init_dict_s3file(raw.cdecoder, dict, noise) === 0)
        throw new Error("Expected the dictionary to load, got a refusal");
      return Promise.resolve();
    };
    await raw.initialize();
    return new Decoder(module, raw);
  }

  /** Set the grammar, as finite-state grammar text. Throws when a word is not in the dictionary. */
  setGrammar(fsg: string): void {
    const file = textFile(this.#module, fsg);
    if (this.#module._decoder_init_grammar_s3file(this.#raw.cdecoder, file, 0) < 0)
      throw new Error("Expected a grammar whose words are all in the dictionary, got another");
  }

  /** Decode one utterance, mono at 16 kHz. */
  decode(pcm: Float32Array): Decoded {
    const raw = this.#raw;
    raw.start();
    raw.process_audio(pcm, false, true);
    raw.stop();
    const hypothesis = this.#module._decoder_hyp(raw.cdecoder, this.#scoreAt);
    if (hypothesis === 0) return { words: [], cost: undefined };
    const score = this.#module.HEAP32[this.#scoreAt >> 2] ?? 0;
    return { words: readWords(raw.get_alignment()), cost: -score * SCORE_UNIT };
  }

  close(): void {
    this.#raw.delete();
  }
}

/** Copy text into the module's memory and hand it over as one of its files. The module frees it. */
function textFile(module: EngineModule, text: string): number {
  const bytes = new TextEncoder().encode(text);
  const at = module._malloc(bytes.length + 1);
  module.HEAPU8.set(bytes, at);
  module.HEAPU8[at + bytes.length] = 0;
  return module._s3file_init(at, bytes.length);
}

function readWords(result: Segment): DecodedWord[] {
  const words: DecodedWord[] = [];
  for (const { t, b, d, p } of result.w ?? []) {
    if (t.startsWith("<") || t.startsWith("[") || t.startsWith("(")) continue;
    const cost = p > 0 ? -Math.log(p) * PROBABILITY_UNIT * SCORE_UNIT : Number.POSITIVE_INFINITY;
    // A pronunciation's number is the dictionary's own affair.
    words.push({ word: t.replace(/\(\d+\)$/, ""), start: b, end: b + d, cost });
  }
  return words;
}
