// One minute of reading aloud: phrases shown one by one, each taken from the microphone, then fitted to the person by the ear.
import { signal } from "@preact/signals";
import { CALIBRATION_PHRASES, type Speaker } from "../../extractors/hearing/index.ts";
import type { KnownPhrase } from "../../extractors/hearing/types.ts";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";
import { BenchFault, type FaultCode, faultOf } from "./fault.ts";
import { Intake } from "./intake.ts";
import { type Mic, openMic } from "./mic.ts";
import { WorkerEar } from "./worker-ear.ts";

export type AloudState = "off" | "starting" | "reading" | "fitting" | "done" | "fault";

export class ReadingAloud {
  readonly state = signal<AloudState>("off");
  readonly fault = signal<FaultCode | undefined>(undefined);
  /** Number of the phrase to be read. */
  readonly at = signal(0);
  readonly speaker = signal<Speaker | undefined>(undefined);
  readonly trouble = signal("");
  readonly #phrases: KnownPhrase[] = [];
  #mic: Mic | undefined;
  #ear: WorkerEar | undefined;

  /** Begin; must be called from a tap. */
  async start(person: string): Promise<void> {
    await this.stop();
    this.state.value = "starting";
    this.fault.value = undefined;
    this.trouble.value = "";
    this.#phrases.length = 0;
    this.at.value = 0;
    try {
      this.#ear = new WorkerEar();
      const frames: { intake?: Intake } = {};
      this.#mic = await openMic({ frame: (frame) => frames.intake?.feed(frame), dead: () => this.#fail(new BenchFault("busy")) });
      await this.#ear.ready;
      frames.intake = new Intake(this.#mic.rate, {
        shut: () => false,
        talking: () => undefined,
        // A phrase without its beginning is still the one that is asked for.
        sentence: ({ pcm, rate, over, clipped }) => {
          if (over && !clipped && this.state.value === "reading") void this.#take(person, pcm, rate);
        },
      });
      this.state.value = "reading";
    } catch (error) {
      this.#fail(faultOf(error));
    }
  }

  /** Read the last phrase again: it was coughed over. */
  back(): void {
    if (this.state.value !== "reading" || this.#phrases.length === 0) return;
    this.#phrases.pop();
    this.at.value = this.#phrases.length;
  }

  async stop(): Promise<void> {
    await this.#mic?.close();
    await this.#ear?.close();
    this.#mic = undefined;
    this.#ear = undefined;
    if (this.state.value !== "done") this.state.value = "off";
  }

  async #take(person: string, pcm: Float32Array, rate: number): Promise<void> {
    const text = CALIBRATION_PHRASES[this.#phrases.length];
    if (text === undefined) return;
    this.#phrases.push({ pcm, rate, text });
    this.at.value = this.#phrases.length;
    if (this.#phrases.length === CALIBRATION_PHRASES.length) await this.#fit(person);
  }

  async #fit(person: string): Promise<void> {
    this.state.value = "fitting";
    const ear = this.#ear;
    if (ear === undefined) return;
    try {
      this.speaker.value = await ear.calibrate(person, this.#phrases, { spec: DEMO_SPEC, context: {} });
      this.state.value = "done";
    } catch (error) {
      this.trouble.value = error instanceof Error ? error.message : String(error);
      this.state.value = "off";
    }
    await this.stop();
  }

  #fail(fault: BenchFault): void {
    this.fault.value = fault.code;
    this.state.value = "fault";
    void this.#mic?.close();
    this.#mic = undefined;
  }
}
