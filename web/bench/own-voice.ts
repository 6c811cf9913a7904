// The voice of who works this shift: the profile it began with, what the ear learnt since, and which sentences wait for a yes by hand.
import { type LearntVoice, type Speaker, withLearnt } from "../../extractors/hearing/index.ts";
import type { Device } from "../store/device.ts";
import type { Outcome } from "../store/words.ts";
import { keepSpeaker, speakerOf } from "./speakers.ts";

export class OwnVoice {
  /** The profile the shift began with: the ear holds what it learnt since. */
  readonly speaker: Speaker | undefined;
  readonly #device: Device;
  readonly #person: string;
  /** What the device should hold, unless somebody read aloud meanwhile. */
  #kept: Speaker | undefined;
  /** Readings that wait, and the sentences they came from. */
  readonly #sentences = new Map<string, number>();

  private constructor(device: Device, person: string, speaker: Speaker | undefined) {
    this.#device = device;
    this.#person = person;
    this.speaker = speaker;
    this.#kept = speaker;
  }

  static async open(device: Device, person: string): Promise<OwnVoice> {
    return new OwnVoice(device, person, await speakerOf(device, person));
  }

  /** Keep what the ear has learnt for the next shift. A voice that read aloud, or was forgotten, since this one began is left. */
  async keep(learnt: LearntVoice): Promise<void> {
    const profile = withLearnt(this.speaker, this.#person, learnt);
    if (profile === undefined) return;
    const held = await speakerOf(this.#device, this.#person);
    const kept = this.#kept;
    if ((held === undefined) !== (kept === undefined) || held?.voice !== kept?.voice) return;
    await keepSpeaker(this.#device, this.#person, profile);
    this.#kept = profile;
  }

  /** Remember which sentence a reading that waits came from; of several in one sentence, a yes to one says nothing of the others. */
  logged({ parsed, events }: Outcome, sentence: number): void {
    const [reading, ...others] = parsed.readings;
    if (reading?.do !== "confirm" || others.length > 0) return;
    for (const { id } of events) this.#sentences.set(id, sentence);
  }

  /** The sentence that a reading came from, once. */
  sentenceOf(event: string): number | undefined {
    const sentence = this.#sentences.get(event);
    this.#sentences.delete(event);
    return sentence;
  }
}
