// Runs on the audio thread: gathers what the microphone gives into frames of about 20 ms and hands them to the page.
interface FramesPort {
  readonly port: MessagePort;
}
declare const AudioWorkletProcessor: new () => FramesPort;
declare const registerProcessor: (name: string, processor: new () => FramesPort) => void;
declare const sampleRate: number;

class Frames extends AudioWorkletProcessor {
  #frame = new Float32Array(Math.round(sampleRate / 50));
  #filled = 0;
  #open = true;

  constructor() {
    super();
    this.port.onmessage = () => {
      this.#open = false;
    };
  }

  /** Called by the browser for each block; false lets the processor go. */
  process(inputs: readonly (readonly Float32Array[])[]): boolean {
    const samples = inputs[0]?.[0];
    if (samples !== undefined) this.#take(samples);
    return this.#open;
  }

  #take(samples: Float32Array): void {
    for (const sample of samples) {
      this.#frame[this.#filled] = sample;
      this.#filled += 1;
      if (this.#filled < this.#frame.length) continue;
      const full = this.#frame;
      this.#frame = new Float32Array(full.length);
      this.#filled = 0;
      this.port.postMessage(full, [full.buffer]);
    }
  }
}

registerProcessor("frames", Frames);
