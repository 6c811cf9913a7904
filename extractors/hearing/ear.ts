// The ear's core, the same in Node and browser: holds one loaded model, keeps recent grammars, hears one utterance a call.
import type { Context } from "../../shared/events/reading.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { DITHER_DB, dithered } from "./audio/dither.ts";
import { type Levels, levelsOf } from "./audio/level.ts";
import { resample } from "./audio/resample.ts";
import { evidenceOf, strangenessOf } from "./doubt/evidence.ts";
import { isFragile, isReadOut } from "./doubt/fragile.ts";
import { FLATTEST_SNR, judge, STRANGE_AGREED, UNUSUAL } from "./doubt/verdict.ts";
import { costOf, heardPasses, type Pass, type Vote, vote } from "./doubt/vote.ts";
import { checkWarp, MIDDLE, nextLook, UNKNOWN, VoiceMemory } from "./doubt/warps.ts";
import { Decoder, ENGINE_RATE } from "./engine/decoder.ts";
import type { EngineFactory, EngineModule } from "./engine/module.ts";
import { plainWord, rolesOf } from "./grammar/fsg.ts";
import { buildGrammar, firstScope, type Grammar, grammarKey, type Scope, withoutFocus } from "./grammar/index.ts";
import { rivalsFsg } from "./grammar/rivals.ts";
import { meaningOf } from "./meaning.ts";
import { isPhoneWord, sentenceOf } from "./text.ts";
import type { Heard, HearOptions, KnownPhrase } from "./types.ts";
import { fullDictionary } from "./words/dictionary.ts";

const KEPT_GRAMMARS = 24;
/** Checks before the ear gives up looking for agreement. */
const MOST_CHECKS = 5;
/** Passes that must agree on what is not easily taken for another. */
const ENOUGH = 3;
/** Below each of these ratios one more must agree. */
const NOISY_SNR = [22, 15];
/** Above this the model does not know the like of the voice well, and takes one word for another at all scales alike. */
const ODD_VOICE = 280;
const SHORTEST_CLIP_SECONDS = 0.15;
/** Dither levels of successive passes, dB: near each other, so that what the passes cost can be compared. */
const DITHERS = [DITHER_DB, DITHER_DB - 1, DITHER_DB + 1, DITHER_DB - 1.5, DITHER_DB + 1.5];

/** A sentence about another thing must fit this much better than a doubtful one about what is open, cost a second. */
const CLEARLY_CHEAPER = 15;

/** Cost a second of a sentence that no path of the grammar reached the end of, when scales are compared. */
const LOST_COST = 600;

const plain = (text: string) =>
  text
    .toLowerCase()
    .replace(/[^a-z ]/g, " ")
    .split(/ +/)
    .join(" ")
    .trim();

const sameWords = (one: string, other: string) => plain(one) === plain(other);

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

/** How many passes must agree: more in noise, more for a voice that fits badly, and for what is easily taken for another. */
function votesWanted({ winner }: Vote, snr: number, strangeness: number): number {
  const words = winner.decoded.words.map(({ word }) => plainWord(word));
  const noisy = NOISY_SNR.filter((limit) => snr < limit).length;
  return ENOUGH + noisy + (isFragile(words) || isReadOut(words) || strangeness > ODD_VOICE ? 1 : 0);
}

/** Whether a sentence began as one about something that is not open: its rest was heard as any speech. */
const isElsewhere = ({ decoded, text }: Pass) => text !== "note" && decoded.words.some(({ word }) => isPhoneWord(word));

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
  /** One for each kind of grammar: the large one takes a fifth of a second to set, and is set once. */
  readonly #decoders: Readonly<Record<Scope | "rivals", Decoder>>;
  readonly #grammars = new Map<string, Grammar>();
  readonly #memory = new VoiceMemory();
  readonly #set = new Map<Scope, string>();
  #voice: string | undefined;

  private constructor(decoders: Readonly<Record<Scope | "rivals", Decoder>>) {
    this.#decoders = decoders;
  }

  /** Load the engine and the acoustic model. `modelBase` is an absolute folder or a URL, with a trailing slash. */
  static async open(factory: EngineFactory, modelBase: string, locate: Record<string, unknown> = {}): Promise<Ear> {
    const module = (await factory({ modelBase, ...locate })) as EngineModule;
    const open = () => Decoder.open(module, `${modelBase}en-us`, fullDictionary());
    return new Ear({ near: await open(), all: await open(), rivals: await open() });
  }

  /** Make the grammars ready before anything is said, so that the first sentence does not wait for them. */
  prepare({ spec, context }: HearOptions): void {
    this.#useGrammar(spec, context, firstScope(context));
    this.#useGrammar(spec, context, "all");
  }

  #useGrammar(spec: Spec, context: Context, scope: Scope): Grammar {
    const open = scope === "all" ? withoutFocus(context) : context;
    const key = grammarKey(spec, open, scope);
    let grammar = this.#grammars.get(key);
    if (grammar === undefined) {
      grammar = buildGrammar(spec, open, scope);
      const oldest = this.#grammars.keys().next().value;
      if (this.#grammars.size >= KEPT_GRAMMARS && oldest !== undefined) this.#grammars.delete(oldest);
      this.#grammars.set(key, grammar);
    }
    if (this.#set.get(scope) !== key) this.#decoders[scope].setGrammar(grammar.fsg);
    this.#set.set(scope, key);
    return grammar;
  }

  #pass(clip: Clip, warp: number, turn: number, by: Scope | "rivals", { spec, context }: HearOptions): Pass {
    const slowed = resample(clip.pcm, Math.round(clip.rate * warp), ENGINE_RATE);
    const decoded = this.#decoders[by].decode(dithered(slowed, DITHERS[turn % DITHERS.length] ?? DITHER_DB, turn + 1));
    const text = sentenceOf(decoded.words.map(({ word }) => word));
    return { warp, decoded, full: by !== "rivals", text, ...meaningOf(text, context, spec) };
  }

  /** Look with the whole grammar: at the voice's scale, or at two where the voice is not known or nothing fits. */
  #look(scope: Scope, clip: Clip, options: HearOptions): Pass[] {
    const known = this.#memory.warp(options.speaker?.warp);
    if (options.quick === true) return [this.#pass(clip, known ?? MIDDLE, 0, scope, options)];
    const passes = (known === undefined ? UNKNOWN : [known]).map((warp) => this.#pass(clip, warp, 0, scope, options));
    const [best] = heardPasses(passes);
    const strange = best === undefined || strangenessOf(best.decoded) > UNUSUAL;
    if (strange && !passes.some(isElsewhere)) passes.push(this.#pass(clip, nextLook(passes), 0, scope, options));
    return passes;
  }

  /** Hear what was found again, against what sounds like it, at other scales and in other noise, until enough of them agree. */
  #check(passes: Pass[], grammar: Grammar, clip: Clip, options: HearOptions): void {
    const [best] = heardPasses(passes);
    if (best === undefined || isElsewhere(best) || strangenessOf(best.decoded) > STRANGE_AGREED) return;
    const rivals = rivalsFsg(
      grammar.start,
      best.decoded.words.map(({ word }) => word).filter((word) => !isPhoneWord(word)),
    );
    if (rivals === undefined) return;
    this.#decoders.rivals.setGrammar(rivals);
    for (let turn = 0; turn < MOST_CHECKS; turn += 1) {
      const counted = vote(passes);
      if (counted === undefined) return;
      const wanted = votesWanted(counted, clip.levels.snr, strangenessOf(best.decoded));
      const votes = Math.round(counted.agreement * counted.voters.length);
      if (votes >= wanted && counted.agreement === 1) return;
      passes.push(this.#pass(clip, checkWarp(best.warp, turn), turn + 1, "rivals", options));
    }
  }

  #hearIn(scope: Scope, clip: Clip, options: HearOptions, seconds: number): Heard {
    const grammar = this.#useGrammar(options.spec, options.context, scope);
    const { snr } = clip.levels;
    const passes = this.#look(scope, clip, options);
    const [first] = heardPasses(passes);
    if (scope === "near" && first !== undefined && isElsewhere(first)) return nothing(seconds, snr, first.warp);
    if (options.quick !== true) this.#check(passes, grammar, clip, options);
    const counted = vote(passes);
    if (counted === undefined) return nothing(seconds, snr, 1);
    const { winner, voters, agreement } = counted;
    if (options.quick === true) return this.#firstSight(winner, seconds, snr);
    const whole = this.#heardWhole(passes, winner, scope, clip, options);
    if (whole === undefined) return nothing(seconds, snr, winner.warp);
    const slowed = resample(clip.pcm, Math.round(clip.rate * whole.warp), ENGINE_RATE);
    const evidence = evidenceOf(whole.decoded, slowed, ENGINE_RATE, clip.levels);
    const judged = judge(counted, evidence, snr, {
      usual: this.#memory.usual,
      elsewhere: scope !== firstScope(options.context),
    });
    // What only the checks heard, and the whole grammar never did, is asked about.
    const verdict = judged === "ok" && whole.meaning !== winner.meaning ? "doubtful" : judged;
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
    if (agreement === 1 && voters.length >= ENOUGH) this.#memory.learnFit(evidence.strangeness);
    if (verdict === "ok" && options.speaker === undefined) this.#memory.learn(winner.warp);
    return { text: winner.text, seconds, words, doubt, snr, verdict, warp: Math.round(winner.warp * 1000) / 1000 };
  }

  /** The pass of the whole grammar that heard what won; where the checks turned the first look over, it looks once more. */
  #heardWhole(passes: readonly Pass[], winner: Pass, scope: Scope, clip: Clip, options: HearOptions): Pass | undefined {
    const full = heardPasses(passes).filter((pass) => pass.full);
    const same = full.find((pass) => pass.meaning === winner.meaning);
    if (same !== undefined) return same;
    const again = this.#pass(clip, winner.warp, 1, scope, options);
    return again.meaning === winner.meaning ? again : full[0];
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
    const sure = options.quick === true ? first.text !== "" : first.verdict === "ok" || first.verdict === "too_loud";
    if (scope === "all" || sure) return first;
    const wide = this.#hearIn("all", clip, options, seconds);
    const fitsBetter = wide.doubt.strangeness < first.doubt.strangeness - CLEARLY_CHEAPER;
    return first.verdict === "nothing" || (wide.verdict === "ok" && fitsBetter) ? wide : first;
  }

  /**
   * Hear a phrase whose words are known, at one frequency scale, among what sounds like it: whether the words came out right,
   * and what they cost (natural-log units; a failed decode costs as much as silence cannot).
   */
  hearKnown({ pcm, rate, text }: KnownPhrase, warp: number, spec: Spec): { right: boolean; cost: number } {
    const levels = levelsOf(pcm, rate);
    const clip = { pcm: pcm.subarray(levels.from, levels.to), rate, levels };
    const by = this.#useRivalsOf(text, spec) ? "rivals" : "all";
    const pass = this.#pass(clip, warp, 0, by, { spec, context: {} });
    const seconds = clip.pcm.length / rate;
    const cost = pass.decoded.cost === undefined ? seconds * LOST_COST : costOf(pass);
    return { right: sameWords(pass.text, text), cost };
  }

  /** Set the small grammar of a known sentence; false when the grammar does not have it. */
  #useRivalsOf(text: string, spec: Spec): boolean {
    const { start } = this.#useGrammar(spec, {}, "all");
    const known = rolesOf(start, plain(text).split(" "));
    const rivals = known === undefined ? undefined : rivalsFsg(start, known);
    if (rivals !== undefined) this.#decoders.rivals.setGrammar(rivals);
    return rivals !== undefined;
  }

  close(): void {
    for (const decoder of Object.values(this.#decoders)) decoder.close();
  }
}
