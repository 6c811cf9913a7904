// AudioWorklet processor: the microphone's samples in, mono frames of 20 ms out to the port it was given (the ear's worker).
// Plain JavaScript without imports: it is loaded by URL, outside the bundle.

const FRAME_SECONDS = 0.02;

class FramesProcessor extends AudioWorkletProcessor {
  constructor() {
    super();
    this.size = Math.round(sampleRate * FRAME_SECONDS);
    this.frame = new Float32Array(this.size);
    this.filled = 0;
    this.target = this.port;
    this.open = true;
    this.port.onmessage = ({ data }) => {
      if (data.type === "to") this.target = data.port;
      // Without this the processor would live as long as the page.
      if (data.type === "close") this.open = false;
    };
  }

  process(inputs) {
    const channels = inputs[0] ?? [];
    const length = channels[0]?.length ?? 0;
    for (let i = 0; i < length; i += 1) {
      let sum = 0;
      for (const channel of channels) sum += channel[i];
      this.frame[this.filled] = sum / channels.length;
      this.filled += 1;
      if (this.filled === this.size) {
        const full = this.frame;
        this.frame = new Float32Array(this.size);
        this.filled = 0;
        this.target.postMessage({ type: "frame", pcm: full, rate: sampleRate }, [full.buffer]);
      }
    }
    return this.open;
  }
}

registerProcessor("thoubook-frames", FramesProcessor);
