// The ear's core, the same in Node and browser: holds one loaded model, hears one utterance a call, or step by step.
import type { Spec } from "../../shared/spec/spec.ts";
import { heardAt } from "./audio/sound.ts";
import { Beginning } from "./beginning.ts";
import { ENOUGH, votesWanted } from "./doubt/agreement.ts";
import { evidenceOf, strangenessOf } from "./doubt/evidence.ts";
import { leadOf } from "./doubt/lead.ts";
import { isElsewhere, isYes, ownWords } from "./doubt/pass-words.ts";
import { isSettled, widerIfBetter } from "./doubt/settled.ts";
import {
  FLATTEST_SNR,
  isBelieved,
  isBriefCommand,
  type Judgement,
  judge,
  leadWanted,
  tooStrange,
  UNUSUAL,
} from "./doubt/verdict.ts";
import { costOf, heardPasses, likeliest, type Pass, type Vote, vote } from "./doubt/vote.ts";
import { checkWarp, MIDDLE, nextLook, UNKNOWN, VoiceMemory } from "./doubt/warps.ts";
import { Bank, type Role } from "./engine/bank.ts";
import { ENGINE_RATE } from "./engine/decoder.ts";
import { Engine } from "./engine/engine.ts";
import { type ReadModelFile, readModel } from "./engine/model.ts";
import type { EngineFactory, EngineModule } from "./engine/module.ts";
import { plainWord, rolesOf } from "./grammar/fsg.ts";
import { isFocused, namedBy, type Scope } from "./grammar/index.ts";
import { GrammarShelf, roleOf } from "./grammar/shelf.ts";
import { type Clip, clipOf, doubtOf, firstSight, glimpse, heardOf, nothing } from "./heard.ts";
import { meaningOf } from "./meaning.ts";
import { finish } from "./steps.ts";
import { bareWords, isFreeNote, isPhoneWord, sentenceOf } from "./text.ts";
import type { Heard, HearOptions, KnownPhrase, KnownVoice, LearntVoice, Speaker } from "./types.ts";
import { type Learning, VoiceFit } from "./voice/fit.ts";
import { fullDictionary } from "./words/dictionary.ts";

/** Checks before the ear gives up looking for agreement. */
const MOST_CHECKS = 5;
const SHORTEST_CLIP_SECONDS = 0.15;
/** Cost a second of a sentence that no path of the grammar reached the end of, when scales are compared. */
const LOST_COST = 600;
/**
 * What a hearing gives before it is over: a first sight of the sentence, once or twice, and after every other decode
 * undefined. After each of them it may be left alone for good.
 */
export type Hearing = Generator<Heard | undefined, Heard>;

export class Ear {
  readonly #bank: Bank;
  readonly #shelf: GrammarShelf;
  readonly #fit: VoiceFit;
  readonly #memory = new VoiceMemory();
  /** The pass of the whole grammar that heard the same, to learn the voice from. */
  readonly #wholes = new WeakMap<Heard, Pass>();
  readonly #beginning = new Beginning();

  private constructor(engine: Engine) {
    this.#bank = new Bank(engine, fullDictionary());
    this.#shelf = new GrammarShelf(this.#bank);
    this.#fit = new VoiceFit(this.#bank, engine.model);
  }

  /** Load the engine and, by `read`, the acoustic model. */
  static async open(factory: EngineFactory, read: ReadModelFile, locate: Record<string, unknown> = {}): Promise<Ear> {
    const [module, model] = await Promise.all([factory({ modelBase: "", ...locate }), readModel(read)]);
    return new Ear(new Engine(module as EngineModule, model));
  }

  /** Listen as to this person: with means fitted to the voice, where the profile has them. */
  #attendTo(speaker: Pick<Speaker, "name" | "voice"> | undefined): void {
    if (!this.#fit.attendTo(speaker)) return;
    this.#memory.forget();
    this.#shelf.forgetSet();
  }

  /**
   * To be called when nobody waits, again while it answers "learning": one step of learning the voice from what was heard without
   * doubt, when there is enough of it. At "learnt" the ear hears otherwise than before, and its grammars want preparing again.
   */
  rest(): Learning {
    const learning = this.#fit.learn();
    if (learning !== "learnt") return learning;
    this.#memory.forgetFit();
    this.#shelf.forgetSet();
    return learning;
  }

  /** What this session has learnt of the voice, to be kept with it; undefined when nothing. */
  learnt(): LearntVoice | undefined {
    const learnt = this.#fit.learnt();
    return learnt === undefined ? undefined : { ...learnt, warp: this.#memory.warp(undefined) };
  }

  /** Somebody said yes by hand to the doubtful sentence of this number: its words are known now. */
  confirm(sentence: number): void {
    this.#fit.confirm(sentence);
  }

  /** Make the grammars ready before anything is said, so that the first sentence does not wait for them. */
  prepare({ spec, context, speaker }: HearOptions): void {
    this.#attendTo(speaker);
    this.#shelf.use(spec, context, "near");
    // The large one is only built: its sentences are needed for the rivals, its decoder seldom.
    this.#shelf.grammar(spec, context, "all");
  }

  #pass(clip: Clip, warp: number, turn: number, by: Role, { spec, context }: HearOptions): Pass {
    const decoded = this.#bank.decoder(by).decode(heardAt(clip.at(warp), turn));
    const text = sentenceOf(decoded.words.map(({ word }) => word));
    return { warp, turn, decoded, full: true, text, ...meaningOf(text, context, spec) };
  }

  /** Look with the whole grammar: at the voice's scale, or at two where the voice is not known or nothing fits. */
  *#look(scope: Scope, clip: Clip, options: HearOptions): Generator<Heard | undefined, Pass[]> {
    const known = this.#memory.warp(options.speaker?.warp);
    const unknown = options.beginning === true ? [MIDDLE] : UNKNOWN;
    this.#shelf.use(options.spec, options.context, scope);
    const passes: Pass[] = [];
    for (const warp of known === undefined ? unknown : [known]) {
      const pass = this.#pass(clip, warp, 0, roleOf(scope), options);
      passes.push(pass);
      if (known === undefined && passes.length === 1) yield glimpse(pass, clip);
    }
    if (options.beginning === true) return passes;
    const best = likeliest(passes);
    if (best !== undefined && isElsewhere(best)) return passes;
    yield best === undefined ? undefined : firstSight(best, clip);
    const strange = best === undefined || strangenessOf(best.decoded) > UNUSUAL;
    if (strange && scope !== "all") {
      passes.push(this.#pass(clip, nextLook(passes), 0, roleOf(scope), options));
      yield undefined;
    }
    return passes;
  }

  /** Hear what was found again, against what sounds like it, at other scales and in other noise, until enough of them agree. */
  *#check(passes: Pass[], scope: Scope, clip: Clip, options: HearOptions): Generator<undefined, void> {
    const best = likeliest(passes);
    if (best === undefined || strangenessOf(best.decoded) > tooStrange(best)) return;
    // Free speech has no sentences that sound like it, and a brief command has too few: the whole grammar hears them again.
    const free = isFreeNote(best) || isBriefCommand(best);
    if (!free && !this.#useRivals(best, scope, options)) return;
    const by = free ? roleOf(scope) : "small";
    for (let turn = 0; turn < MOST_CHECKS; turn += 1) {
      const counted = vote(passes);
      if (counted === undefined) return;
      const wanted = votesWanted(counted, clip.levels.snr, strangenessOf(best.decoded));
      const votes = Math.round(counted.agreement * counted.voters.length);
      if (votes >= wanted && counted.agreement === 1) return;
      passes.push({ ...this.#pass(clip, checkWarp(best.warp, turn), turn + 1, by, options), full: free });
      yield undefined;
    }
  }

  /** Set what sounds like a pass on the small decoder, but for some sentences. */
  #useRivals(pass: Pass, scope: Scope, { spec, context }: HearOptions, without: readonly (readonly string[])[] = []): boolean {
    // What was heard to be about one thing may be about another that sounds like it: its rivals are those of everything.
    const { start } = this.#shelf.grammar(spec, context, typeof scope === "string" ? scope : "all");
    return this.#shelf.useRivals(start, ownWords(pass), without);
  }

  /** Whether a winner that is believed so far is as much cheaper than what else it may have been as it must be. */
  *#leads(
    { winner, voters }: Vote,
    judged: Judgement,
    scope: Scope,
    clip: Clip,
    options: HearOptions,
  ): Generator<undefined, boolean> {
    const wanted = leadWanted(winner, judged, clip.levels.snr, clip.treble, { fitted: this.#fit.isFitted });
    if (wanted === 0 || wanted === Number.POSITIVE_INFINITY) return wanted === 0;
    const lead = yield* leadOf(winner, voters, wanted, (warp, turn, without) =>
      this.#useRivals(winner, scope, options, without) ? this.#pass(clip, warp, turn, "small", options) : undefined,
    );
    // What sounds like nothing else in the grammar may be anything that is not in it.
    return lead >= wanted && (judged !== "strange" || lead < Number.POSITIVE_INFINITY);
  }

  *#hearIn(scope: Scope, clip: Clip, options: HearOptions): Hearing {
    const { seconds, levels } = clip;
    const passes = yield* this.#look(scope, clip, options);
    const first = likeliest(passes);
    if (scope === "near" && first !== undefined && isElsewhere(first)) return yield* this.#hearAbout(first, clip, options);
    if (options.beginning === true) return nothing(seconds, levels.snr, 1);
    yield* this.#check(passes, scope, clip, options);
    const counted = vote(passes);
    if (counted === undefined) return nothing(seconds, levels.snr, 1);
    const { winner, voters, agreement } = counted;
    const whole = this.#heardWhole(passes, winner, scope, clip, options);
    if (whole === undefined) return nothing(seconds, levels.snr, winner.warp);
    const evidence = evidenceOf(whole.decoded, clip.at(whole.warp), ENGINE_RATE, levels);
    const elsewhere = scope !== "near" && isFocused(options.context);
    const setting = { usual: this.#memory.usual, fitted: this.#fit.isFitted, elsewhere };
    const judged = judge(counted, evidence, levels.snr, setting);
    const believed = isBelieved(judged);
    // What only the checks heard, and the whole grammar never did, is asked about.
    const sure = believed && whole.meaning === winner.meaning && (yield* this.#leads(counted, judged, scope, clip, options));
    const verdict = believed ? (sure ? "ok" : "doubtful") : judged;
    // Talk that nothing came of says nothing of how strange the voice's sentences are.
    if (verdict === "ok" && agreement === 1 && voters.length >= ENOUGH) this.#memory.learnFit(evidence.strangeness);
    if (verdict === "ok" && options.speaker === undefined) this.#memory.learn(winner.warp);
    const heard = heardOf(counted, doubtOf(counted, evidence.strangeness), verdict, clip);
    if (whole.meaning === winner.meaning) this.#wholes.set(heard, whole);
    return heard;
  }

  /** Keep a sentence to learn the voice from: at once when there is no doubt of it, else if the next one says yes to it. */
  #keep(heard: Heard, clip: Clip, { speaker, sentence }: HearOptions): void {
    const whole = this.#wholes.get(heard);
    if (whole === undefined || isFreeNote(whole)) return;
    const warp = this.#memory.warp(speaker?.warp) ?? whole.warp;
    const words = ownWords(whole).map((word) => plainWord(word));
    const known = { pcm: clip.pcm, rate: clip.rate, warp, words: words.join(" "), number: sentence };
    if (heard.verdict === "ok") this.#fit.remember(known, isYes(whole));
    else this.#fit.doubt(heard.verdict === "doubtful" && whole.plain ? known : undefined);
  }

  /** Hear a sentence whose beginning named something that is not open, in the grammar of that alone. */
  *#hearAbout(beginning: Pass, clip: Clip, options: HearOptions): Hearing {
    const names = beginning.decoded.words.filter(({ word }) => !isPhoneWord(word) && word === plainWord(word));
    const about = namedBy(names.map(({ word }) => word).join(" "));
    const untried = this.#beginning.note(options.sentence, about);
    if (!untried || about.length === 0 || options.beginning === true)
      return nothing(clip.seconds, clip.levels.snr, beginning.warp);
    const heard = yield* this.#hearIn({ about }, clip, options);
    // A name that was heard wrong leads to a sentence that fits badly: everything is asked then.
    return isSettled(heard) ? heard : nothing(clip.seconds, clip.levels.snr, heard.warp);
  }

  /** The pass of the whole grammar that heard what won; where the checks turned the first look over, it looks once more. */
  #heardWhole(passes: readonly Pass[], winner: Pass, scope: Scope, clip: Clip, options: HearOptions): Pass | undefined {
    const full = heardPasses(passes).filter((pass) => pass.full);
    const same = full.find((pass) => pass.meaning === winner.meaning);
    if (same !== undefined) return same;
    this.#shelf.use(options.spec, options.context, scope);
    const again = this.#pass(clip, winner.warp, 1, roleOf(scope), options);
    return again.meaning === winner.meaning ? again : full[0];
  }

  /** Hear one utterance: mono samples -1..1 at `rate` a second. */
  hear(pcm: Float32Array, rate: number, options: HearOptions): Heard {
    return finish(this.hearing(pcm, rate, options));
  }

  /** The same step by step, for who wants to see the sentence early or may have to leave it. */
  *hearing(pcm: Float32Array, rate: number, options: HearOptions): Hearing {
    const seconds = pcm.length / rate;
    if (seconds < SHORTEST_CLIP_SECONDS) return nothing(seconds, 0, 1);
    this.#attendTo(options.speaker);
    const clip = clipOf(pcm, rate);
    if (clip.levels.snr < FLATTEST_SNR) return nothing(seconds, clip.levels.snr, 1);
    const heard = yield* this.#hearAnywhere(clip, options);
    if (isSettled(heard)) this.#beginning.forget();
    if (options.beginning !== true) this.#keep(heard, clip, options);
    return heard;
  }

  /** In what the beginning of the sentence named, in what is open, and where neither explains it, in the whole registry. */
  *#hearAnywhere(clip: Clip, options: HearOptions): Hearing {
    const about = this.#beginning.of(options.sentence);
    if (about.length > 0) {
      const begun = yield* this.#hearIn({ about }, clip, options);
      if (isSettled(begun)) return begun;
      this.#beginning.heardInVain();
    }
    const near = yield* this.#hearIn("near", clip, options);
    if (isSettled(near) || options.beginning === true) return near;
    return widerIfBetter(near, yield* this.#hearIn("all", clip, options));
  }

  /**
   * Hear a phrase whose words are known, at one frequency scale, among what sounds like it: whether the words came out right,
   * and what they cost (natural-log units; a failed decode costs as much as silence cannot).
   */
  hearKnown({ pcm, rate, text }: KnownPhrase, { warp, name, voice }: KnownVoice, spec: Spec): { right: boolean; cost: number } {
    this.#attendTo({ name, ...(voice === undefined ? {} : { voice }) });
    const clip = clipOf(pcm, rate);
    const { start } = this.#shelf.grammar(spec, {}, "all");
    const known = rolesOf(start, bareWords(text).split(" "));
    const small = known !== undefined && this.#shelf.useRivals(start, known);
    if (!small) this.#shelf.use(spec, {}, "all");
    const pass = this.#pass(clip, warp, 0, small ? "small" : "all", { spec, context: {} });
    const spoken = clip.pcm.length / rate;
    const cost = pass.decoded.cost === undefined ? spoken * LOST_COST : costOf(pass);
    return { right: bareWords(pass.text) === bareWords(text), cost };
  }

  /** What a voice is like, from phrases whose words are known, heard at its frequency scale: text for its profile. */
  learnVoice(phrases: readonly KnownPhrase[], warp: number): string {
    return this.#fit.describe(
      phrases.map(({ pcm, rate, text }) => ({ pcm: clipOf(pcm, rate).pcm, rate, warp, words: bareWords(text) })),
    );
  }

  close(): void {
    this.#fit.forget();
    this.#bank.close();
  }
}
