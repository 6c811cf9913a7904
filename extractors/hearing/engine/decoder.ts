// The recogniser with our own dictionary and grammars: samples at 16 kHz in, words with times and scores out.
import { phonesIn } from "../words/dictionary.ts";
import { apart } from "../words/joined.ts";
import type { Engine, HeldGaussians } from "./engine.ts";
import type { RawDecoder, Segment, Spectrum } from "./module.ts";
import { CLOSE, type Scoring } from "./scoring.ts";
import { type Search, WIDE } from "./search.ts";

export const ENGINE_RATE = 16_000;

/**
 * One recognised word: seconds from the clip's start, and its acoustic cost (0 is a perfect match), in natural-log units as `CLOSE`
 * scoring has them.
 */
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

const FRAMES_A_SECOND = 100;

/** A stretch of frames, first to before the last, and what of the model it sounds like. */
export interface SoundState {
  readonly phone: string;
  /** Number of the state's distribution in the model. */
  readonly senone: number;
  readonly from: number;
  readonly to: number;
}

/** The library's log unit: base 1.0001, shifted right by ten bits in acoustic scores. */
const SCORE_UNIT = 1024 * Math.log(1.0001);
const PROBABILITY_UNIT = 1 / Math.log(1.0001);

/** How many times the log weights of a grammar count. */
export const GRAMMAR_WEIGHT = 4;

/** What each word costs, as a weight that does not count fourfold. */
export const WORD_PRICE = 0.2;

/**
 * Weights of the grammar count fourfold, short words are held back. Pauses are as usual as words: who reads sizes out stops at every comma,
 * and at the library's own price (0.005) a short word is put into a pause instead.
 */
const PRICES = { lw: GRAMMAR_WEIGHT, wip: WORD_PRICE, silprob: 0.2 };

/** The word of a transition in finite-state grammar text. */
const TRANSITION_WORD = /^TRANSITION \d+ \d+ \S+ (\S+)$/gm;

export class Decoder {
  readonly #engine: Engine;
  /** The library, asked for a word that it does not have, may never return: it is not asked. */
  readonly #words: ReadonlySet<string>;
  readonly #raw: RawDecoder;
  readonly #scoreAt: number;
  /** Of acoustic scores, natural-log units. */
  readonly #unit: number;

  /** A decoder with the engine's model, these Gaussians in place of its own when they are given, and the dictionary's text. */
  constructor(
    engine: Engine,
    dictionary: string,
    gaussians?: HeldGaussians,
    { topn, dearer }: Scoring = CLOSE,
    search: Search = WIDE,
  ) {
    const { module, model } = engine;
    const settings = { ...model.features, ...PRICES, ...search, topn };
    this.#engine = engine;
    this.#words = new Set(dictionary.split("\n").map((line) => line.replace(/ .*/, "")));
    this.#raw = new module.Decoder({ hmm: "en-us", samprate: ENGINE_RATE, loglevel: "FATAL", ...settings });
    this.#unit = SCORE_UNIT / dearer;
    engine.load(this.#raw, dictionary, gaussians);
    this.#scoreAt = module._malloc(4);
  }

  /** Set the grammar, as finite-state grammar text. Throws when a word is not in the dictionary. */
  setGrammar(fsg: string): void {
    const { module } = this.#engine;
    for (const [, word = ""] of fsg.matchAll(TRANSITION_WORD))
      if (!this.#words.has(word)) throw new Error(`Expected a grammar whose words are all in the dictionary, got "${word}"`);
    const set = this.#engine.withText(fsg, (file) => module._decoder_init_grammar_s3file(this.#raw.cdecoder, file, 0));
    if (set < 0) throw new Error("Expected finite-state grammar text, got another");
  }

  /** Decode one utterance, mono at 16 kHz. */
  decode(pcm: Float32Array): Decoded {
    const raw = this.#raw;
    raw.start();
    raw.process_audio(pcm, false, true);
    raw.stop();
    const { module } = this.#engine;
    const hypothesis = module._decoder_hyp(raw.cdecoder, this.#scoreAt);
    if (hypothesis === 0) return { words: [], cost: undefined };
    const score = module.HEAP32[this.#scoreAt >> 2] ?? 0;
    return { words: readWords(raw.get_alignment(), this.#unit), cost: -score * this.#unit };
  }

  /** Where the states of known words lie in a clip, mono at 16 kHz; none when they do not fit. The grammar is theirs afterwards. */
  align(pcm: Float32Array, words: string): readonly SoundState[] {
    if (words.split(" ").some((word) => !this.#words.has(word))) return [];
    this.#raw.set_align_text(words);
    if (this.decode(pcm).cost === undefined) return [];
    return readStates(this.#raw.get_alignment({ align_level: 2 }));
  }

  /** Log energies of the front end's bands, noise taken out, a hundred frames a second. */
  spectrum(pcm: Float32Array): Spectrum {
    return this.#raw.spectrogram(pcm);
  }

  close(): void {
    this.#raw.delete();
    this.#engine.module._free(this.#scoreAt);
  }
}

function readStates(result: Segment): SoundState[] {
  const phones = (result.w ?? []).flatMap((word) => word.w ?? []);
  return phones.flatMap(({ t: phone, w }) =>
    (w ?? []).map(({ t, b, d }) => ({
      phone,
      senone: Number(t),
      from: Math.round(b * FRAMES_A_SECOND),
      to: Math.round((b + d) * FRAMES_A_SECOND),
    })),
  );
}

function readWords(result: Segment, unit: number): DecodedWord[] {
  const words: DecodedWord[] = [];
  for (const { t, b, d, p } of result.w ?? []) {
    if (t.startsWith("<") || t.startsWith("[") || t.startsWith("(")) continue;
    const cost = p > 0 ? -Math.log(p) * PROBABILITY_UNIT * unit : Number.POSITIVE_INFINITY;
    // A pronunciation's number is the dictionary's own affair.
    words.push(...wordsIn({ word: t.replace(/\(\d+\)$/, ""), start: b, end: b + d, cost }));
  }
  return words;
}

/** The words of an entry, its time and its cost shared out by their phones. */
function wordsIn(heard: DecodedWord): readonly DecodedWord[] {
  const parts = apart(heard.word).map((word) => ({ word, phones: phonesIn(word) || 1 }));
  const phone = 1 / parts.reduce((sum, { phones }) => sum + phones, 0);
  let start = heard.start;
  return parts.map(({ word, phones }) => {
    const end = start + (heard.end - heard.start) * phones * phone;
    const own = { word, start, end, cost: heard.cost * phones * phone };
    start = end;
    return own;
  });
}
