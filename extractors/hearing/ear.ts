// The ear's core, the same in Node and browser: holds one loaded model, keeps recent grammars, hears one utterance a call.
import type { Context } from "../../shared/events/reading.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { DITHER_DB, dithered } from "./audio/dither.ts";
import { type Levels, levelsOf } from "./audio/level.ts";
import { resample } from "./audio/resample.ts";
import { evidenceOf, strangenessOf } from "./doubt/evidence.ts";
import { isFragile, isReadOut } from "./doubt/fragile.ts";
import { FLATTEST_SNR, judge, STRANGE_AGREED, UNUSUAL } from "./doubt/verdict.ts";
import { type Pass, type Vote, vote } from "./doubt/vote.ts";
import { nextWarp, WarpMemory } from "./doubt/warps.ts";
import { Decoder, ENGINE_RATE } from "./engine/decoder.ts";
import type { EngineFactory, EngineModule } from "./engine/module.ts";
import { plainWord } from "./grammar/fsg.ts";
import { buildGrammar, firstScope, type Grammar, grammarKey, type Scope } from "./grammar/index.ts";
import { meaningOf } from "./meaning.ts";
import { isPhoneWord, sentenceOf } from "./text.ts";
import type { Heard, HearOptions, KnownPhrase } from "./types.ts";
import { fullDictionary } from "./words/dictionary.ts";

const KEPT_GRAMMARS = 24;
/** Passes before the ear gives up looking for agreement. */
const MOST_PASSES = 5;
/** Below this ratio two that agree are not enough. */
const CLEAN_SNR = 22;
const SHORTEST_CLIP_SECONDS = 0.15;
/** Dither levels of successive passes, dB: agreement at different levels says more than at one. */
const DITHERS = [DITHER_DB + 4, DITHER_DB, DITHER_DB + 8, DITHER_DB - 2, DITHER_DB + 2];

/** Cost a second of a sentence that no path of the grammar reached the end of, when scales are compared. */
const LOST_COST = 600;

const sameWords = (one: string, other: string) => {
  const plain = (text: string) =>
    text
      .toLowerCase()
      .replace(/[^a-z ]/g, " ")
      .split(/ +/)
      .join(" ")
      .trim();
  return plain(one) === plain(other);
};

interface Clip {
  readonly pcm: Float32Array;
  readonly rate: number;
  readonly levels: Levels;
}

const nothing = (seconds: number, snr: number, warp: number): Heard => ({
  text: "",
  seconds,
  words: [],
  doubt: { words: [], others: [], agreement: 0, strangeness: 0 },
  snr,
  verdict: "nothing",
  warp,
});

/** How many passes must agree: more in noise, and more for what is easily taken for another. */
function votesWanted({ winner }: Vote, snr: number): number {
  const noisy = snr < CLEAN_SNR ? 1 : 0;
  const words = winner.decoded.words.map(({ word }) => plainWord(word));
  const fragile = isFragile(words) ? 2 : isReadOut(words) ? 1 : 0;
  const unusual = strangenessOf(winner.decoded) > UNUSUAL ? 2 : 0;
  return 2 + noisy + Math.max(fragile, unusual);
}

/** Indexes of the winner's words that some voter heard otherwise, by comparing words at the same moment. */
function disputed({ winner, voters }: Vote): number[] {
  const words = winner.decoded.words;
  return words.flatMap((word, index) => {
    const middle = ((word.start + word.end) / 2) * winner.warp;
    const same = voters.every((pass) =>
      pass.decoded.words.some(
        (other) =>
          plainWord(other.word) === plainWord(word.word) &&
          other.start * pass.warp <= middle + 0.1 &&
          other.end * pass.warp >= middle - 0.1,
      ),
    );
    return same ? [] : [index];
  });
}

export class Ear {
  readonly #decoder: Decoder;
  readonly #grammars = new Map<string, Grammar>();
  readonly #memory = new WarpMemory();
  #set: string | undefined;
  #voice: string | undefined;

  private constructor(decoder: Decoder) {
    this.#decoder = decoder;
  }

  /** Load the engine and the acoustic model. `modelBase` is an absolute folder or a URL, with a trailing slash. */
  static async open(factory: EngineFactory, modelBase: string, locate: Record<string, unknown> = {}): Promise<Ear> {
    const module = (await factory({ modelBase, ...locate })) as EngineModule;
    return new Ear(await Decoder.open(module, `${modelBase}en-us`, fullDictionary()));
  }

  /** Make the grammar ready before anything is said, so that the first sentence does not wait for it. */
  prepare({ spec, context }: HearOptions): void {
    this.#useGrammar(spec, context, firstScope(context));
  }

  #useGrammar(spec: Spec, context: Context, scope: Scope): void {
    const key = grammarKey(spec, context, scope);
    if (this.#set === key) return;
    let grammar = this.#grammars.get(key);
    if (grammar === undefined) {
      grammar = buildGrammar(spec, context, scope);
      const oldest = this.#grammars.keys().next().value;
      if (this.#grammars.size >= KEPT_GRAMMARS && oldest !== undefined) this.#grammars.delete(oldest);
      this.#grammars.set(key, grammar);
    }
    this.#decoder.setGrammar(grammar.fsg);
    this.#set = key;
  }

  #pass(clip: Clip, warp: number, turn: number, { spec, context }: HearOptions): Pass {
    const slowed = resample(clip.pcm, Math.round(clip.rate * warp), ENGINE_RATE);
    const decoded = this.#decoder.decode(dithered(slowed, DITHERS[turn % DITHERS.length] ?? DITHER_DB, turn + 1));
    const text = sentenceOf(decoded.words.map(({ word }) => word));
    return { warp, decoded, text, meaning: meaningOf(text, context, spec) };
  }

  /** Decode at one frequency scale after another until enough of them agree. */
  #passes(clip: Clip, options: HearOptions): readonly Pass[] {
    const passes: Pass[] = [];
    for (const warp of this.#memory.first(options.speaker?.warp)) {
      passes.push(this.#pass(clip, warp, passes.length, options));
      if (options.quick === true) return passes;
    }
    const strange = () => passes.every(({ decoded }) => strangenessOf(decoded) > STRANGE_AGREED);
    if (strange()) passes.push(this.#pass(clip, nextWarp(passes), passes.length, options));
    // Nothing of the grammar comes near it at three scales: other talk or noise, not worth more passes.
    if (strange()) return passes;
    while (passes.length < MOST_PASSES) {
      const counted = vote(passes);
      // Three that agree on nothing will not be brought together by a fourth.
      const alone = counted === undefined || (counted.voters.length >= 3 && counted.agreement * counted.voters.length < 1.5);
      if (passes.length >= 3 && alone) break;
      if (counted !== undefined && counted.agreement === 1 && counted.voters.length >= votesWanted(counted, clip.levels.snr))
        break;
      passes.push(this.#pass(clip, nextWarp(passes), passes.length, options));
    }
    return passes;
  }

  #hearIn(scope: Scope, clip: Clip, options: HearOptions, seconds: number): Heard {
    this.#useGrammar(options.spec, options.context, scope);
    const counted = vote(this.#passes(clip, options));
    const { snr } = clip.levels;
    if (counted === undefined) return nothing(seconds, snr, 1);
    const { winner, voters, agreement } = counted;
    if (options.quick === true) return this.#firstSight(winner, seconds, snr);
    const slowed = resample(clip.pcm, Math.round(clip.rate * winner.warp), ENGINE_RATE);
    const evidence = evidenceOf(winner.decoded, slowed, ENGINE_RATE, clip.levels);
    const verdict = judge(counted, evidence, snr);
    const others = [...new Set(voters.filter((pass) => pass.meaning !== winner.meaning).map((pass) => pass.text))];
    const doubt = { words: disputed(counted), others, agreement, strangeness: Math.round(evidence.strangeness) };
    if (verdict === "nothing" || verdict === "too_loud") return { ...nothing(seconds, snr, winner.warp), doubt, verdict };
    const offset = clip.levels.from / clip.rate;
    const words = winner.decoded.words
      .filter(({ word }) => !isPhoneWord(word))
      .map(({ word, start, end }, index) => ({
        word: plainWord(word),
        start: offset + start * winner.warp,
        end: offset + end * winner.warp,
        trust: doubt.words.includes(index) ? agreement / 2 : agreement,
      }));
    if (verdict === "ok" && options.speaker === undefined) this.#memory.learn(voters[0]?.warp ?? winner.warp);
    return { text: winner.text, seconds, words, doubt, snr, verdict, warp: Math.round(winner.warp * 1000) / 1000 };
  }

  /** First sight: the words of one decode, in doubt by their nature; nothing when a filler was among them. */
  #firstSight({ decoded, text, warp }: Pass, seconds: number, snr: number): Heard {
    const talk = decoded.words.some(({ word }) => isPhoneWord(word));
    return talk || text === "" ? nothing(seconds, snr, warp) : { ...nothing(seconds, snr, warp), text, verdict: "doubtful" };
  }

  /** Hear one utterance: mono samples -1..1 at `rate` a second. */
  hear(pcm: Float32Array, rate: number, options: HearOptions): Heard {
    const seconds = pcm.length / rate;
    if (seconds < SHORTEST_CLIP_SECONDS) return nothing(seconds, 0, 1);
    const voice = options.speaker?.name;
    if (voice !== this.#voice) this.#memory.forget();
    this.#voice = voice;
    const levels = levelsOf(pcm, rate);
    if (levels.snr < FLATTEST_SNR) return nothing(seconds, levels.snr, 1);
    const clip = { pcm: pcm.subarray(levels.from, levels.to), rate, levels };
    const scope = firstScope(options.context);
    const first = this.#hearIn(scope, clip, options, seconds);
    // What the open step does not explain may belong to another: the whole registry gets its say.
    if (scope === "all" || options.quick === true || first.verdict === "ok" || first.verdict === "too_loud") return first;
    const wide = this.#hearIn("all", clip, options, seconds);
    return wide.verdict === "ok" || first.verdict === "nothing" ? wide : first;
  }

  /**
   * Hear a phrase whose words are known, at one frequency scale, with the whole grammar of the demo's kind of engine: whether
   * the words came out right, and what they cost (natural-log units; a failed decode costs as much as silence cannot).
   */
  hearKnown({ pcm, rate, text }: KnownPhrase, warp: number, spec: Spec): { right: boolean; cost: number } {
    this.#useGrammar(spec, {}, "all");
    const levels = levelsOf(pcm, rate);
    const clip = { pcm: pcm.subarray(levels.from, levels.to), rate, levels };
    const { decoded, text: heard } = this.#pass(clip, warp, 0, { spec, context: {} });
    const seconds = clip.pcm.length / rate;
    return { right: sameWords(heard, text), cost: decoded.cost ?? seconds * LOST_COST };
  }

  close(): void {
    this.#decoder.close();
  }
}
