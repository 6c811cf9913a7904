// Whose voice the decoders' means are fitted to: nobody's, a person's as the profile has it, and what this session learns besides.
import type { Bank } from "../engine/bank.ts";
import { Gaussians, STREAMS } from "../engine/gaussians.ts";
import { leanFiles } from "../engine/lean.ts";
import type { GaussianFiles, Model } from "../engine/model.ts";
import { finish } from "../steps.ts";
import type { Speaker } from "../types.ts";
import { fittedMeans } from "./adapt.ts";
import { keep, unpack } from "./kept.ts";
import { VoiceLearner } from "./learner.ts";
import { type KnownWords, type Listener, listenTo } from "./listen.ts";
import { VoiceStatistics } from "./statistics.ts";

/** A sentence of this session. */
export interface HeardWords extends KnownWords {
  /** Its number, when it may be heard again as it grows. */
  readonly number: number | undefined;
}

/**
 * Times that the phrases of a calibration are listened to, the later ones with the model as the one before had fitted it (expectation
 * maximisation: Dempster, Laird and Rubin, J. Royal Statistical Society B 39, 1977). Of four strong accents' sentences, clean, one
 * round left 63 in a hundred right and three of 176 wrong, two 72 and four, three 73 and one, five 74 and none.
 */
const ROUNDS = 3;

/** No more are held for a yes that may never come. */
const MOST_DOUBTFUL = 6;

/** Frames, at every scale and in every noise, by which it is known what a voice makes use of; a calibration has 21,000 to 29,000. */
const FEWEST_FRAMES = 20_000;

/** What a step of learning came to: there was nothing to learn, there is more of it to do, or the decoders are others now. */
export type Learning = "idle" | "learning" | "learnt";

export class VoiceFit {
  readonly #bank: Bank;
  readonly #model: Model;
  #read: Gaussians | undefined;
  #name: string | undefined;
  #voice: string | undefined;
  /** The decoders' means where they are other than the model's own. */
  #means: Float32Array | undefined;
  #learner = new VoiceLearner();
  #learning: Generator<undefined, void> | undefined;
  /** What this session's fit is made of; undefined until it learnt something. */
  #learnt: VoiceStatistics | undefined;
  /** Sentences that wait for a yes, the last one last. */
  #doubtful: HeardWords[] = [];
  /** Whether the last sentence waits for a yes. */
  #asked = false;
  #last: number | undefined;

  constructor(bank: Bank, model: Model) {
    this.#bank = bank;
    this.#model = model;
  }

  /** Read when a voice is first fitted: an ear that hears strangers starts without. */
  get #gaussians(): Gaussians {
    this.#read ??= new Gaussians(this.#model);
    return this.#read;
  }

  /** Whether the decoders' means are other than the model's own. */
  get isFitted(): boolean {
    return this.#means !== undefined;
  }

  /** Listen as to this person from now on; what was learnt of another is forgotten. False when it is the one listened to. */
  attendTo(speaker: Pick<Speaker, "name" | "voice"> | undefined): boolean {
    if (speaker?.name === this.#name && speaker?.voice === this.#voice) return false;
    this.#name = speaker?.name;
    this.#voice = speaker?.voice;
    const known = this.#voice === undefined ? undefined : unpack(this.#voice, this.#gaussians);
    this.forget();
    this.#learner = new VoiceLearner(known);
    this.#learnt = undefined;
    this.#doubtful = [];
    this.#asked = false;
    this.#last = undefined;
    if (this.isFitted || known !== undefined) this.#fitTo(known);
    return true;
  }

  /** Fit the decoders' means to what was heard of a voice, or to none. No grammar is set on them afterwards. */
  #fitTo(heard: VoiceStatistics | undefined): void {
    this.#means = heard === undefined ? undefined : fittedMeans(heard, this.#gaussians);
    this.#bank.reopen(heard && this.#means && this.#filesFor(heard, this.#means));
  }

  /** What was heard for a minute is heard from then on by what the voice makes use of of the model. */
  #filesFor({ frames }: VoiceStatistics, means: Float32Array): GaussianFiles {
    const heard = frames.reduce((sum, count) => sum + count, 0) / STREAMS;
    return heard < FEWEST_FRAMES ? this.#gaussians.filesWith(means) : leanFiles(this.#gaussians, means, frames);
  }

  /** The steps of `use` with somebody who listens by these means, or by the model's own. */
  #listening<T>(means: Float32Array | undefined, use: (listener: Listener) => Generator<undefined, T>): Generator<undefined, T> {
    const gaussians = this.#gaussians;
    const { lifter } = this.#model.features;
    return this.#bank.borrow(means && gaussians.filesWith(means), (decoder) =>
      use({ decoder, mixtures: means === undefined ? gaussians : gaussians.movedTo(means), lifter }),
    );
  }

  /** Keep a sentence that was heard without doubt, and where it is a yes, the doubtful one before it. */
  remember(sentence: HeardWords, yes = false): void {
    const doubtful = this.#asked && yes ? this.#doubtful.pop() : undefined;
    this.#asked = false;
    if (doubtful !== undefined) this.#learner.add(doubtful);
    // One that is heard again as it grows is kept once.
    if (sentence.number === undefined || sentence.number !== this.#last) this.#learner.add(sentence);
    this.#last = sentence.number;
  }

  /** Hold on to a sentence that waits for a yes; undefined when the last one does not. */
  doubt(sentence: HeardWords | undefined): void {
    this.#asked = sentence !== undefined;
    if (sentence === undefined) return;
    // One that is heard again as it grows waits once.
    this.#doubtful = this.#doubtful.filter(({ number }) => number === undefined || number !== sentence.number);
    this.#doubtful.push(sentence);
    if (this.#doubtful.length > MOST_DOUBTFUL) this.#doubtful.shift();
  }

  /** Somebody said yes by hand to a doubtful sentence of this number. */
  confirm(number: number): void {
    const confirmed = this.#doubtful.find((sentence) => sentence.number === number);
    if (confirmed === undefined) return;
    this.#doubtful = this.#doubtful.filter((sentence) => sentence !== confirmed);
    this.#learner.add(confirmed);
  }

  /** One step of learning from the sentences that were kept, once there are enough of them. */
  learn(): Learning {
    if (this.#learning === undefined && !this.#learner.isDue) return "idle";
    this.#learning ??= this.#learn();
    if (this.#learning.next().done !== true) return "learning";
    this.#learning = undefined;
    return "learnt";
  }

  *#learn(): Generator<undefined, void> {
    const learner = this.#learner;
    this.#learnt = yield* this.#listening(this.#means, (listener) => learner.learn(listener));
    this.#fitTo(this.#learnt);
  }

  /** Leave a learning that is not done. */
  forget(): void {
    this.#learning?.return();
    this.#learning = undefined;
  }

  /** What this session has learnt of the voice, its profile's share included, and from how many sentences; undefined if nothing. */
  learnt(): { readonly voice: string; readonly sentences: number } | undefined {
    if (this.#learnt === undefined) return undefined;
    return { voice: keep(this.#learnt, this.#gaussians), sentences: this.#learner.learnt };
  }

  /** What a voice is like, from clips whose words are known: text for its profile. */
  describe(clips: readonly KnownWords[]): string {
    let heard = this.#heardBy(undefined, clips);
    for (let round = 1; round < ROUNDS; round += 1) heard = this.#heardBy(fittedMeans(heard, this.#gaussians), clips);
    return keep(heard, this.#gaussians);
  }

  /** What who listens by these means, or by the model's own, hears of the clips. */
  #heardBy(means: Float32Array | undefined, clips: readonly KnownWords[]): VoiceStatistics {
    const heard = new VoiceStatistics();
    finish(this.#listening(means, (listener) => listenTo(clips, heard, listener)));
    return heard;
  }
}
