// One shift at the vise: microphone, ear and voice together from the first tap on. Sentences come in, are heard, logged and said back.
import { batch, signal } from "@preact/signals";
import { type Heard, type HearOptions, isWhole, levelOf, writeWav } from "../../extractors/hearing/index.ts";
import { type Build, contextOf } from "../../shared/build/index.ts";
import type { Parsed } from "../../shared/events/reading.ts";
import type { Asked } from "../photo/live-camera.tsx";
import type { Book } from "../store/book.ts";
import { sha256Hex } from "../store/sha256.ts";
import { logWords } from "../store/words.ts";
import { type Draft, Drafts } from "./drafts.ts";
import { BenchFault, type FaultCode } from "./fault.ts";
import { Intake, type Sentence } from "./intake.ts";
import { type Mic, noMicHere, openMic } from "./mic.ts";
import { previewOf } from "./preview.ts";
import { askedAgain, type Mood, type ReadBack, readBackOutcome } from "./read-back.ts";
import { playTone, type ToneName } from "./tones.ts";
import { Voice } from "./voice.ts";
import { Wake } from "./wake.ts";
import { type HeardClip, WorkerEar } from "./worker-ear.ts";

export type ShiftState = "off" | "starting" | "armed" | "paused" | "dead" | "fault";

const TONE_OF: Readonly<Record<Mood, ToneName | undefined>> = {
  accepted: "accepted",
  question: "question",
  done: "heard",
  nothing: undefined,
};

/** However clear a sentence is, "and a half" may follow sooner than this. */
const SHORTEST_END_MS = 600;

/** After so long the next sentence may be about to begin. */
const LATE_MS = 2000;

export class Shift {
  readonly #book: Book;
  readonly fault = signal<FaultCode | undefined>(noMicHere());
  readonly state = signal<ShiftState>(this.fault.value === undefined ? "off" : "fault");
  readonly awake = signal(true);
  readonly level = signal(-100);
  readonly talking = signal(false);
  readonly heard = signal("");
  readonly said = signal<ReadBack | undefined>(undefined);
  /** Whether what is shown is not logged yet. */
  readonly tentative = signal(false);
  /** Counts up each time a picture is asked for by voice, with the place said along with it. */
  readonly pictureAsked = signal<Asked>({ count: 0 });
  readonly #voice = new Voice();
  readonly #wake = new Wake();
  #ear: WorkerEar | undefined;
  #drafts: Drafts | undefined;
  #mic: Mic | undefined;
  #intake: Intake | undefined;
  #queue: Promise<unknown> = Promise.resolve();
  /** Settled once the shift has begun, or could not: what is said meanwhile waits for it. */
  #begun: Promise<void> = Promise.resolve();
  #lastWords = "";
  #frames = 0;

  constructor(book: Book) {
    this.#book = book;
  }

  /** Begin; must be called from a tap, because microphone, screen lock and voice are only given to one. */
  start(): Promise<void> {
    this.#begun = this.#begin();
    return this.#begun;
  }

  async #begin(): Promise<void> {
    this.state.value = "starting";
    this.fault.value = undefined;
    this.#voice.prime();
    try {
      await this.#mic?.close();
      const waking = this.#wake.hold();
      this.#mic = await openMic({ frame: (frame) => this.#frame(frame), dead: () => this.#dead() });
      this.#intake = this.#openIntake(this.#mic.rate);
      this.#ear ??= new WorkerEar((fault) => this.#fail(fault));
      this.#drafts = new Drafts(this.#ear);
      await this.#ear.ready;
      if (this.#book.build !== undefined) this.#ear.prepare(this.#options(this.#book.build));
      this.awake.value = await waking;
      if (this.state.value === "starting") this.state.value = "armed";
      // Who has begun to speak is heard without it: a tone would shut the ear in the middle of a sentence.
      if (!this.#intake.stirring) this.#tone("heard");
    } catch (error) {
      this.#fail(error instanceof BenchFault ? error : new BenchFault("ear_failed", String(error)));
    }
  }

  /** Say words that are not about a reading; resolves when they have been said. */
  tell(text: string): Promise<void> {
    this.#lastWords = text;
    return this.#voice.say(text);
  }

  /** End the shift. What was said up to now is still heard and logged. */
  async stop(): Promise<void> {
    this.#voice.hold();
    await this.#mic?.close();
    this.#mic = undefined;
    await this.#queue;
    this.state.value = "off";
    await this.#ear?.close();
    this.#ear = undefined;
    await this.#wake.let();
  }

  /** Listen or leave be; by tap, key, foot switch or voice. */
  toggle(): void {
    if (this.state.value === "armed") this.#pause();
    else if (this.state.value === "paused") this.#resume();
    else if (this.state.value !== "starting") void this.start();
  }

  #pause(): void {
    this.#intake?.reset();
    this.state.value = "paused";
    this.#tone("heard");
  }

  #resume(): void {
    this.state.value = "armed";
    this.#tone("accepted");
  }

  #fail(fault: BenchFault): void {
    this.fault.value = fault.code;
    this.state.value = "fault";
    void this.#mic?.close();
    this.#mic = undefined;
    if (fault.code === "ear_failed") this.#ear = undefined;
  }

  #dead(): void {
    if (this.state.value === "off" || this.state.value === "fault") return;
    this.#tone("dead");
    this.state.value = "dead";
  }

  #tone(name: ToneName): void {
    if (this.#mic === undefined) return;
    this.#voice.shutFor(playTone(this.#mic.context, name));
  }

  #openIntake(rate: number): Intake {
    return new Intake(rate, {
      shut: () => this.#voice.shut,
      talking: (on) => {
        this.talking.value = on;
        if (on) this.#voice.hold();
      },
      sentence: (sentence) => this.#enqueue(sentence),
      growing: (number, pcm) => void this.#grow(number, pcm, rate).catch(() => undefined),
      wentOn: (number) => this.#drafts?.leave(number),
    });
  }

  /** Show what was heard of a sentence that goes on. */
  async #grow(number: number, pcm: Float32Array, rate: number): Promise<void> {
    const { build } = this.#book;
    if (build === undefined || this.state.value !== "armed") return;
    const clip = await this.#drafts?.growing(pcm, rate, this.#options(build));
    if (clip !== undefined && this.talking.value && number === this.#intake?.current) this.#sight(clip, number);
  }

  #frame(frame: Float32Array): void {
    this.#intake?.feed(frame);
    // Five times a second is enough for an eye.
    this.#frames += 1;
    if (this.#frames % 10 === 0) this.level.value = Math.round(levelOf(frame));
  }

  #enqueue(sentence: Sentence): void {
    this.#queue = Promise.all([this.#queue, this.#begun])
      // A lull after which the sentence went on, or ended, need not be heard any more.
      .then(() => (sentence.over || sentence.end === this.#intake?.lull ? this.#listen(sentence) : undefined))
      .catch((error: unknown) => {
        if (error instanceof BenchFault) this.#fail(error);
        else this.#show({ text: `Not logged: ${error instanceof Error ? error.message : String(error)}`, mood: "question" }, "");
      });
  }

  #options(build: Build): HearOptions {
    return { spec: build.spec, context: contextOf(build, this.#book.device) };
  }

  async #listen(sentence: Sentence): Promise<void> {
    const { build } = this.#book;
    const drafts = this.#drafts;
    if (build === undefined || drafts === undefined) return;
    const options = this.#options(build);
    if (!sentence.over) return void this.#endEarly(sentence, drafts.begin(sentence, options)).catch(() => undefined);
    const clip = await drafts.whole(sentence, options);
    if (clip === undefined) return;
    // While paused only the word that ends the pause is taken, and nothing is kept.
    const resumes = clip.parsed.commands.some(({ command }) => command === "resume");
    if (this.state.value === "paused" && resumes) this.#resume();
    else if (this.state.value === "armed") await this.#end(clip.heard, clip.parsed, sentence);
  }

  /** A sentence that was understood without doubt, and to which nothing more can belong, need not wait out its silence. */
  async #endEarly({ end, lastLoud, number, clipped }: Sentence, draft: Draft): Promise<void> {
    const clip = await draft.heard;
    if (clip === undefined) return;
    if (!clipped && this.#sight(clip, number)) this.#measure("reading shown", lastLoud);
    if (!isWhole(clip.heard, clip.parsed)) return;
    await new Promise((resolve) => setTimeout(resolve, Math.max(0, lastLoud + SHORTEST_END_MS - performance.now())));
    if (this.state.value === "armed") this.#intake?.cut(end);
  }

  /** What a sentence would come to if it ended here, shown as not logged, and not over a newer sentence; whether that is a reading. */
  #sight({ heard, parsed }: HeardClip, number: number): boolean {
    if (this.state.value !== "armed" || number !== this.#intake?.current || parsed.readings.length === 0) return false;
    this.#show(previewOf(this.#book, parsed), heard.text, true);
    return true;
  }

  async #end(heard: Heard, parsed: Parsed, sentence: Sentence): Promise<void> {
    const again = sentence.clipped ? "the start was lost, say it again" : askedAgain(parsed);
    if (again === undefined) await this.#log(heard, parsed, sentence);
    // Half a sentence reads as another one: it is never taken. What was not made out at all is asked again, not logged.
    else if (heard.text !== "" || !sentence.clipped) this.#answer({ text: again, mood: "question" }, heard.text);
  }

  async #log(heard: Heard, parsed: Parsed, { pcm, rate, lastLoud }: Sentence): Promise<void> {
    const wav = new Uint8Array(writeWav({ pcm, rate }));
    const clip = await sha256Hex(wav);
    const outcome = await logWords(this.#book, {
      text: heard.text,
      parsed,
      heard: { by: "voice", clip, seconds: Math.round(heard.seconds * 100) / 100 },
      blobs: { [clip]: wav },
      // A note keeps its sound even when no more of it could be made out.
      keep: /^note\b/.test(heard.text),
    });
    const { build } = this.#book;
    if (build === undefined) return;
    this.#ear?.prepare(this.#options(build));
    const back = readBackOutcome(outcome, build, this.#book.findings());
    if (back.mood === "nothing") {
      // What was shown of it is taken back.
      if (this.tentative.value) this.#show(undefined, "");
      if (heard.text !== "") this.heard.value = `${heard.text} (not for the book)`;
      return;
    }
    const asked = new Set(outcome.parsed.commands.map(({ command }) => command));
    if (asked.has("repeat")) this.#answer({ text: this.#lastWords || "nothing said yet", mood: "done" }, heard.text, false);
    else this.#answer(back, heard.text, true, performance.now() - lastLoud < LATE_MS);
    if (back.reading !== undefined) this.#measure("reading logged", lastLoud);
    const picture = outcome.parsed.commands.find(({ command }) => command === "photo");
    if (picture !== undefined) this.pictureAsked.value = { count: this.pictureAsked.value.count + 1, place: picture.place };
    if (asked.has("pause")) this.#pause();
  }

  #show(said: ReadBack | undefined, heard: string, tentative = false): void {
    batch(() => {
      this.said.value = said;
      this.heard.value = heard;
      this.tentative.value = tentative;
    });
  }

  /** Show and say. `keep` remembers it for "say again"; a late answer has no tone, which could fall on the next sentence. */
  #answer(said: ReadBack, heard: string, keep = true, tones = true): void {
    this.#show(said, heard);
    if (keep && said.text !== "") this.#lastWords = said.text;
    // Who has begun the next sentence is not talked over: the screen alone answers.
    if (this.talking.value) return;
    const tone = said.mark === "fail" ? "out" : TONE_OF[said.mood];
    if (tone !== undefined && tones && said.later !== true) this.#tone(tone);
    void this.#voice.say(said.text, said.later);
  }

  /** From the last loud frame of a sentence to what is on the screen, kept among the browser's own measures. */
  #measure(name: "reading shown" | "reading logged", lastLoud: number): void {
    requestAnimationFrame(() => performance.measure(name, { start: lastLoud }));
  }
}
