// The voice that says readings back, from the browser's own local voices. Tells whether it is speaking, so that the ear
// does not hear it; a browser that silently says nothing is found out and not waited for.
import { signal } from "@preact/signals";

/** Recognition stays shut for so long after the last sound of ours. */
export const AFTER_MS = 300;
/** After a tone it is open again sooner: a tone is no word, and the next sentence may follow on its heels. */
export const AFTER_TONE_MS = 120;
/** Who broke off before the figure looks at the instrument for about so long. */
const LATER_MS = 4000;
/** A voice that has not started by now will not. */
const START_MS = 1000;

export class Voice {
  /** The ear is to be shut until this moment of `performance.now()`. */
  #shutUntil = 0;
  #speaking = 0;
  #later: ReturnType<typeof setTimeout> | undefined;
  /** Set when the browser turned out to have no voice that speaks. */
  readonly mute = signal(false);

  /** Call inside the first tap: later speaking is only allowed after that. */
  prime(): void {
    const synth = globalThis.speechSynthesis as SpeechSynthesis | undefined;
    if (synth === undefined) {
      this.mute.value = true;
      return;
    }
    const silent = new SpeechSynthesisUtterance(" ");
    silent.volume = 0;
    synth.speak(silent);
  }

  /** Whether a sound of ours may be in the microphone now. */
  get shut(): boolean {
    return this.#speaking > 0 || performance.now() < this.#shutUntil;
  }

  /** A tone of ours plays for so long. */
  shutFor(seconds: number): void {
    this.#shutUntil = Math.max(this.#shutUntil, performance.now() + seconds * 1000 + AFTER_TONE_MS);
  }

  /** Leave what was to be said later: somebody speaks. */
  hold(): void {
    clearTimeout(this.#later);
  }

  /**
   * Say words, cutting off what is being said; resolves when said, or when it is clear that nothing will be. `later`: in a while,
   * unless something else is said or somebody speaks before that.
   */
  async say(text: string, later = false): Promise<void> {
    this.hold();
    if (later) {
      this.#later = setTimeout(() => void this.say(text), LATER_MS);
      return;
    }
    const synth = globalThis.speechSynthesis as SpeechSynthesis | undefined;
    if (synth === undefined || text === "" || this.mute.value) return;
    synth.cancel();
    // No voices: none on this machine, or not loaded yet. Either way nothing would be said, so nothing is waited for.
    if (synth.getVoices().length === 0) return;
    const voice = localVoice(synth.getVoices());
    const words = new SpeechSynthesisUtterance(text);
    if (voice !== undefined) words.voice = voice;
    words.rate = 1.08;
    this.#speaking += 1;
    const started = await this.#speak(synth, words, text);
    this.#speaking -= 1;
    this.#shutUntil = performance.now() + AFTER_MS;
    if (!started) this.mute.value = true;
  }

  #speak(synth: SpeechSynthesis, words: SpeechSynthesisUtterance, text: string): Promise<boolean> {
    return new Promise((resolve) => {
      let started = false;
      const late = setTimeout(() => {
        if (!started) resolve(false);
      }, START_MS);
      // Some browsers never tell the end: no sentence of ours takes longer than this.
      const longest = setTimeout(() => resolve(true), 2000 + text.length * 120);
      const done = (ok: boolean) => () => {
        clearTimeout(late);
        clearTimeout(longest);
        resolve(ok);
      };
      words.onstart = () => {
        started = true;
      };
      words.onend = done(true);
      words.onerror = (event) => done(event.error === "interrupted" || event.error === "canceled")();
      synth.speak(words);
    });
  }
}

/** A voice of this machine in the page's language; none of a service elsewhere. */
function localVoice(voices: readonly SpeechSynthesisVoice[]): SpeechSynthesisVoice | undefined {
  const local = voices.filter((voice) => voice.localService);
  return local.find(({ lang }) => lang.startsWith("en")) ?? local[0];
}
