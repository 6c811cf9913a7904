// The ear's core, the same in Node and browser: holds one loaded model, hears one utterance a call, or step by step.
import type { QuantityId } from "../../shared/quantities/types.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { MARGIN, MARGIN_IF_FITTED } from "./audio/level.ts";
import { isVoice } from "./audio/voicing.ts";
import { Beginning } from "./beginning.ts";
import { isYes, ownWords } from "./doubt/pass-words.ts";
import { betterThan, isSettled, laterIfBetter } from "./doubt/settled.ts";
import { FLATTEST_SNR, hissIn, LEAST_VOICED } from "./doubt/verdict.ts";
import { costOf, type Pass } from "./doubt/vote.ts";
import { MIDDLE, VoiceMemory } from "./doubt/warps.ts";
import { Bank } from "./engine/bank.ts";
import { Engine } from "./engine/engine.ts";
import { type ReadModelFile, readModel } from "./engine/model.ts";
import type { EngineFactory, EngineModule } from "./engine/module.ts";
import { namedIn } from "./grammar/index.ts";
import { GrammarShelf } from "./grammar/shelf.ts";
import { type Clip, clipOf, isQuiet, nothing } from "./heard.ts";
import { Passes, type Sought } from "./passes.ts";
import { type Found, Seeker } from "./seek.ts";
import { finish } from "./steps.ts";
import { bareWords, isFigure, isFreeNote } from "./text.ts";
import type { Heard, HearOptions, KnownPhrase, KnownVoice, LearntVoice, Speaker } from "./types.ts";
import { type Learning, VoiceFit } from "./voice/fit.ts";
import { fullDictionary } from "./words/dictionary.ts";
import { plainWord } from "./words/plain-word.ts";

const SHORTEST_CLIP_SECONDS = 0.15;
/** Cost a second of a sentence that no path of the grammar reached the end of, when scales are compared. */
const LOST_COST = 600;

/**
 * What a hearing gives before it is over: a first sight of the sentence, once or twice, and after every other decode
 * undefined. After each of them it may be left alone for good.
 */
export type Hearing = Generator<Heard | undefined, Heard>;

/** What was heard in what is open, and which quantities it named where it was about something else. */
interface HeardNear {
  readonly heard: Heard;
  readonly about: readonly QuantityId[];
}

export class Ear {
  readonly #bank: Bank;
  readonly #shelf: GrammarShelf;
  readonly #passes: Passes;
  readonly #seeker: Seeker;
  readonly #fit: VoiceFit;
  readonly #memory = new VoiceMemory();
  /** The pass of the whole grammar that heard the same, to learn the voice from. */
  readonly #wholes = new WeakMap<Heard, Pass>();
  readonly #beginning = new Beginning();

  private constructor(engine: Engine) {
    this.#bank = new Bank(engine, fullDictionary());
    this.#shelf = new GrammarShelf(this.#bank);
    this.#passes = new Passes(this.#shelf);
    this.#fit = new VoiceFit(this.#bank, engine.model);
    this.#seeker = new Seeker(this.#passes, this.#fit, this.#memory);
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
  prepare(options: HearOptions): void {
    const { spec, context, speaker } = options;
    this.#attendTo(speaker);
    this.#shelf.prepare(spec, context);
  }

  /** Whether a hearing settles the sentence. What noise or a blow makes dearer is known of a voice that is fitted. */
  #isSettled(heard: Heard, clip: Clip): boolean {
    return isSettled(heard, this.#fit.isFitted && !isQuiet(clip));
  }

  *#hearIn(sought: Sought): Hearing {
    return this.#noted(yield* this.#seeker.seek(sought));
  }

  #noted({ heard, whole }: Found): Heard {
    if (whole !== undefined) this.#wholes.set(heard, whole);
    return heard;
  }

  /** Keep a sentence to learn the voice from: at once when there is no doubt of it, else if the next one says yes to it. */
  #keep(heard: Heard, clip: Clip, { speaker, sentence }: HearOptions): void {
    const whole = this.#wholes.get(heard);
    if (whole === undefined || isFreeNote(whole)) {
      // It came between a doubtful sentence and a yes, which is not to that one then.
      if (heard.verdict === "ok" || heard.verdict === "doubtful") this.#fit.doubt(undefined);
      return;
    }
    const warp = this.#memory.warp(speaker?.warp) ?? whole.warp;
    const words = ownWords(whole).map((word) => plainWord(word));
    const known = { pcm: clip.pcm, rate: clip.rate, warp, words: words.join(" "), number: sentence };
    if (heard.verdict === "ok") this.#fit.remember(known, isYes(whole));
    else this.#fit.doubt(heard.verdict === "doubtful" && whole.plain ? known : undefined);
  }

  /** Hear in what is open; a sentence whose beginning named something else in the grammar of that alone, which is told of, too. */
  *#hearNear(clip: Clip, options: HearOptions): Generator<Heard | undefined, HeardNear> {
    const found = yield* this.#seeker.seek({ scope: "near", clip, options });
    if (found.elsewhere === undefined) return { heard: this.#noted(found), about: [] };
    const about = namedIn(ownWords(found.elsewhere));
    const untried = this.#beginning.note(options.sentence, about);
    if (!untried || about.length === 0 || options.beginning === true) return { heard: found.heard, about };
    return { heard: yield* this.#hearIn({ scope: { about }, clip, options }), about };
  }

  /** Hear as what the sentence is about in outline, after what was heard first. */
  *#hearOutlined({ heard, about: tried }: HeardNear, clip: Clip, options: HearOptions): Hearing {
    const guessed = tried.length > 0;
    // No sentence in it counts there without a yes, and one that is asked about is at hand.
    if (!guessed && heard.verdict !== "nothing" && hissIn(clip.levels.snr, clip.treble()) === "loud") return heard;
    const outline = yield* this.#seeker.outline({ clip, options });
    const about = namedIn(outline);
    const isTried = heard.verdict !== "nothing" && about.join() === tried.join();
    if (outline.length === 0 || isTried) return heard;
    const scope = { about, figureFirst: isFigure(outline[0] ?? "") };
    const later = yield* this.#hearIn({ scope, clip, options, better: betterThan(heard), last: true });
    return laterIfBetter(heard, later, guessed);
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
    const clip = clipOf(pcm, rate, this.#fit.isFitted ? MARGIN_IF_FITTED : MARGIN);
    if (clip.levels.snr < FLATTEST_SNR) return nothing(seconds, clip.levels.snr, 1);
    // The beginning of a sentence may be all hiss, as of "six".
    if (options.beginning !== true && !isVoice(clip.at(MIDDLE), LEAST_VOICED)) return nothing(seconds, clip.levels.snr, 1);
    const heard = yield* this.#hearAnywhere(clip, options);
    if (this.#isSettled(heard, clip)) this.#beginning.forget();
    if (options.beginning !== true) this.#keep(heard, clip, options);
    return heard;
  }

  /** In what the beginning of the sentence named, in what is open, and where neither explains it, in what it is about in outline. */
  *#hearAnywhere(clip: Clip, options: HearOptions): Hearing {
    const about = this.#beginning.of(options.sentence);
    if (about.length > 0) {
      const begun = yield* this.#hearIn({ scope: { about }, clip, options });
      if (this.#isSettled(begun, clip)) return begun;
      this.#beginning.heardInVain();
    }
    const near = yield* this.#hearNear(clip, options);
    if (this.#isSettled(near.heard, clip) || options.beginning === true) return near.heard;
    return yield* this.#hearOutlined(near, clip, options);
  }

  /**
   * Hear a phrase whose words are known, at one frequency scale, among what sounds like it: whether the words came out right,
   * and what they cost (natural-log units; a failed decode costs as much as silence cannot).
   */
  hearKnown({ pcm, rate, text }: KnownPhrase, { warp, name, voice }: KnownVoice, spec: Spec): { right: boolean; cost: number } {
    this.#attendTo({ name, ...(voice === undefined ? {} : { voice }) });
    const clip = clipOf(pcm, rate, MARGIN_IF_FITTED);
    const sought: Sought = { scope: "all", clip, options: { spec, context: {} } };
    const pass = this.#passes.amongKnown(bareWords(text).split(" "), sought, warp) ?? this.#passes.whole(sought, warp);
    const spoken = clip.pcm.length / rate;
    const cost = pass.decoded.cost === undefined ? spoken * LOST_COST : costOf(pass);
    return { right: bareWords(pass.text) === bareWords(text), cost };
  }

  /** What a voice is like, from phrases whose words are known, heard at its frequency scale: text for its profile. */
  learnVoice(phrases: readonly KnownPhrase[], warp: number): string {
    return this.#fit.describe(
      phrases.map(({ pcm, rate, text }) => ({
        pcm: clipOf(pcm, rate, MARGIN_IF_FITTED).pcm,
        rate,
        warp,
        words: bareWords(text),
      })),
    );
  }

  close(): void {
    this.#fit.forget();
    this.#bank.close();
  }
}
