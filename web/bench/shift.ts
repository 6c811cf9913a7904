// One shift at the vise: microphone, ear and voice held together from the first tap until it is closed. Sentences come in,
// are heard, shown while still in doubt, logged when over, and said back.
import { batch, signal } from "@preact/signals";
import { type Heard, understand, writeWav } from "../../extractors/hearing/index.ts";
import { contextOf } from "../../shared/build/index.ts";
import type { Parsed } from "../../shared/events/reading.ts";
import type { Asked } from "../photo/live-camera.tsx";
import type { Book } from "../store/book.ts";
import { sha256Hex } from "../store/sha256.ts";
import { logWords } from "../store/words.ts";
import { type Endpoint, Endpointer } from "./endpointer.ts";
import { BenchFault, type FaultCode } from "./fault.ts";
import { type Mic, openMic } from "./mic.ts";
import { previewOf } from "./preview.ts";
import { type Mood, type ReadBack, readBackOutcome } from "./read-back.ts";
import { playTone, type ToneName } from "./tones.ts";
import { Voice } from "./voice.ts";
import { Wake } from "./wake.ts";
import { WorkerEar } from "./worker-ear.ts";

export type ShiftState = "off" | "starting" | "armed" | "paused" | "dead" | "fault";

const TONE_OF: Readonly<Record<Mood, ToneName | undefined>> = {
  accepted: "accepted",
  question: "question",
  done: "heard",
  nothing: undefined,
};

export class Shift {
  readonly #book: Book;
  readonly state = signal<ShiftState>("off");
  readonly fault = signal<FaultCode | undefined>(undefined);
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
  #mic: Mic | undefined;
  #endpointer = new Endpointer({ rate: 16_000 });
  #lastLoud = 0;
  /** Sentences are heard one after the other; a number tells a sentence's preview from the one after it. */
  #sentence = 0;
  #queue: Promise<unknown> = Promise.resolve();
  #lastWords = "";

  constructor(book: Book) {
    this.#book = book;
  }

  /** Begin; must be called from a tap, because microphone, screen lock and voice are only given to one. */
  async start(): Promise<void> {
    this.state.value = "starting";
    this.fault.value = undefined;
    this.#voice.prime();
    try {
      await this.#mic?.close();
      const waking = this.#wake.hold();
      this.#mic = await openMic({ frame: (frame) => this.#frame(frame), dead: () => this.#dead() });
      this.#endpointer = new Endpointer({ rate: this.#mic.rate });
      this.#ear ??= new WorkerEar((fault) => this.#fail(fault));
      await this.#ear.ready;
      this.awake.value = await waking;
      if (this.state.value === "starting") this.state.value = "armed";
      this.#tone("heard");
    } catch (error) {
      this.#fail(error instanceof BenchFault ? error : new BenchFault("ear_failed", String(error)));
    }
  }

  /** Say words that are not about a reading; resolves when they have been said. */
  tell(text: string): Promise<void> {
    this.#lastWords = text;
    return this.#voice.say(text);
  }

  async stop(): Promise<void> {
    this.state.value = "off";
    await this.#mic?.close();
    this.#mic = undefined;
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
    this.#endpointer.reset();
    batch(() => {
      this.state.value = "paused";
      this.talking.value = false;
    });
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

  #frame(frame: Float32Array): void {
    if (this.#voice.shut) {
      this.#endpointer.reset();
      this.talking.value = false;
      return;
    }
    const end = this.#endpointer.feed(frame);
    this.level.value = Math.round(this.#endpointer.level);
    if (this.#endpointer.loud) this.#lastLoud = performance.now();
    if (end !== undefined) this.#endpoint(end);
  }

  #endpoint(end: Endpoint): void {
    switch (end.kind) {
      case "start":
        this.#sentence += 1;
        this.talking.value = true;
        return;
      case "onward":
        this.talking.value = true;
        return;
      case "lull":
        this.talking.value = false;
        this.#enqueue(this.#sentence, end.pcm, this.#lastLoud, false);
        return;
      case "end":
        this.talking.value = false;
        this.#enqueue(this.#sentence, end.pcm, this.#lastLoud, true);
    }
  }

  #enqueue(sentence: number, pcm: Float32Array, lastLoud: number, over: boolean): void {
    const mic = this.#mic;
    if (mic === undefined) return;
    this.#queue = this.#queue
      // A preview that comes late would show an old sentence over a newer one.
      .then(() => (over || sentence === this.#sentence ? this.#listen(pcm, mic.rate, lastLoud, over) : undefined))
      .catch((error: unknown) => {
        if (error instanceof BenchFault) this.#fail(error);
        else this.#show({ text: `Not logged: ${error instanceof Error ? error.message : String(error)}`, mood: "question" }, "");
      });
  }

  async #listen(pcm: Float32Array, rate: number, lastLoud: number, over: boolean): Promise<void> {
    const { build } = this.#book;
    if (build === undefined || this.#ear === undefined) return;
    const context = contextOf(build, this.#book.device);
    const asked = performance.now();
    const heard = await this.#ear.hear(pcm, rate, { spec: build.spec, context });
    performance.measure("hear", { start: asked });
    if (this.state.value === "paused") {
      if (over) this.#whilePaused(understand(heard, context, build.spec));
      return;
    }
    if (this.state.value !== "armed") return;
    if (heard.verdict === "too_loud") {
      if (over) this.#answer({ text: "too loud, again", mood: "question" }, heard.text);
      return;
    }
    const parsed = understand(heard, context, build.spec);
    if (over) await this.#log(heard, parsed, pcm, rate, lastLoud);
    else if (parsed.readings.length > 0) {
      this.#show(previewOf(this.#book, build, parsed), heard.text, true);
      this.#measure(lastLoud);
    }
  }

  /** While paused only the word that ends the pause is taken, and nothing is kept. */
  #whilePaused(parsed: Parsed): void {
    if (parsed.commands.some(({ command }) => command === "resume")) this.#resume();
  }

  async #log(heard: Heard, parsed: Parsed, pcm: Float32Array, rate: number, lastLoud: number): Promise<void> {
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
    const shown = this.tentative.value;
    const back = readBackOutcome(outcome, build, this.#book.findings());
    if (back.mood === "nothing") {
      this.tentative.value = false;
      if (heard.text !== "") this.heard.value = `${heard.text} (not for the book)`;
      return;
    }
    const asked = new Set(outcome.parsed.commands.map(({ command }) => command));
    if (asked.has("repeat")) this.#answer({ text: this.#lastWords || "nothing said yet", mood: "done" }, heard.text, false);
    else this.#answer(back, heard.text);
    if (!shown && back.reading !== undefined) this.#measure(lastLoud);
    const picture = outcome.parsed.commands.find(({ command }) => command === "photo");
    if (picture !== undefined) this.pictureAsked.value = { count: this.pictureAsked.value.count + 1, place: picture.place };
    if (asked.has("pause")) this.#pause();
  }

  #show(said: ReadBack, heard: string, tentative = false): void {
    batch(() => {
      this.said.value = said;
      this.heard.value = heard;
      this.tentative.value = tentative;
    });
  }

  /** Show and say. `keep` remembers it for "say again". */
  #answer(said: ReadBack, heard: string, keep = true): void {
    this.#show(said, heard);
    if (keep && said.text !== "") this.#lastWords = said.text;
    const tone = said.mark === "fail" ? "out" : TONE_OF[said.mood];
    if (tone !== undefined) this.#tone(tone);
    void this.#voice.say(said.text);
  }

  /** From the last loud frame of a sentence to its reading on the screen, on the browser's own timeline of measures. */
  #measure(lastLoud: number): void {
    requestAnimationFrame(() => performance.measure("reading shown", { start: lastLoud }));
  }
}
