// The microphone as a run of frames. Tells when it has gone dead: frames that do not come are the only truth about a microphone.
import { BenchFault, type FaultCode, faultOf } from "./fault.ts";

const FRAMES_URL = new URL("../../extractors/hearing/browser/frames-worklet.js", import.meta.url);

/** No frame for so long is a dead microphone. */
export const DEAD_MS = 1000;

export interface Mic {
  readonly rate: number;
  /** The context that tones play through as well. */
  readonly context: AudioContext;
  close(): Promise<void>;
}

export interface MicListener {
  frame(samples: Float32Array): void;
  /** Called once when frames stop coming. */
  dead(): void;
}

/** What keeps this page from any microphone, as can be told before one is asked for. */
export function noMicHere(): FaultCode | undefined {
  return !globalThis.isSecureContext || navigator.mediaDevices === undefined ? "insecure" : undefined;
}

/** Ask for the microphone; must be called from a tap. @throws BenchFault */
export async function openMic(listener: MicListener): Promise<Mic> {
  const none = noMicHere();
  if (none !== undefined) throw new BenchFault(none);
  // 16 kHz is what the recogniser wants; a browser that cannot do it gives its own rate and the ear resamples.
  const context = new AudioContext({ sampleRate: 16_000 });
  if (context.audioWorklet === undefined) throw new BenchFault("no_worklet");
  try {
    const session = (navigator as { audioSession?: { type: string } }).audioSession;
    if (session !== undefined) session.type = "play-and-record";
    const stream = await navigator.mediaDevices.getUserMedia({
      // The sound as it is: the ear's model knows no denoised speech, gain control would pump the room's noise up between
      // sentences, and our own voice is kept out by shutting the ear while it speaks.
      audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false, channelCount: 1 },
    });
    return await connect(context, stream, listener);
  } catch (error) {
    await context.close();
    throw faultOf(error);
  }
}

async function connect(context: AudioContext, stream: MediaStream, listener: MicListener): Promise<Mic> {
  await context.resume();
  await context.audioWorklet.addModule(FRAMES_URL);
  const frames = new AudioWorkletNode(context, "thoubook-frames", { numberOfInputs: 1, numberOfOutputs: 0 });
  let last = performance.now();
  let told = false;
  frames.port.onmessage = (message: MessageEvent<{ readonly pcm: Float32Array }>) => {
    last = performance.now();
    listener.frame(message.data.pcm);
  };
  const tell = () => {
    if (told) return;
    told = true;
    listener.dead();
  };
  let looked = last;
  const watch = setInterval(() => {
    const now = performance.now();
    // Where the page itself was held up, frames wait behind this very look: only the next one can tell.
    if (now - last > DEAD_MS && now - looked < DEAD_MS) tell();
    looked = now;
  }, 250);
  const tracks = stream.getAudioTracks();
  for (const track of tracks) track.onended = tell;
  context.createMediaStreamSource(stream).connect(frames);
  return {
    rate: context.sampleRate,
    context,
    async close() {
      told = true;
      clearInterval(watch);
      frames.port.postMessage({ type: "close" });
      for (const track of tracks) track.stop();
      await context.close();
    },
  };
}
