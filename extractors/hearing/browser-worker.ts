// The ear's worker in the browser: microphone frames or clips in, what was heard and what it comes to out. Works without a server.
import createModule from "soundswallower";
import type { Context } from "../../shared/events/reading.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import type { EarAnswer, EarRequest } from "./browser-messages.ts";
import { calibrate } from "./calibrate.ts";
import { Ear } from "./ear.ts";
import { type EndpointEvent, Endpointer } from "./endpoint.ts";
import type { EngineFactory } from "./engine/module.ts";
import type { HearOptions, Speaker } from "./types.ts";
import { isWhole, understand } from "./understand.ts";

const post = (answer: EarAnswer, transfer: Transferable[] = []) =>
  (self as unknown as { postMessage(message: EarAnswer, transfer: Transferable[]): void }).postMessage(answer, transfer);

const LEVEL_EVERY_FRAMES = 10;

let ear: Ear | undefined;
let open: { spec: Spec; context: Context; speaker?: Speaker } | undefined;
let endpointer: Endpointer | undefined;
let listening = true;
let frames = 0;
/** Wall-clock time at which the newest frame came, to measure the lag. */
let frameTime = 0;
let clock = 0;

const optionsOf = ({ spec, context, speaker }: { spec: Spec; context: Context; speaker?: Speaker }): HearOptions => ({
  spec,
  context,
  ...(speaker === undefined ? {} : { speaker }),
});

function hearSpeech(event: Extract<EndpointEvent, { pcm: Float32Array }>, rate: number): void {
  if (ear === undefined || open === undefined || endpointer === undefined) return;
  const heard = ear.hear(event.pcm, rate, optionsOf(open));
  const parsed = understand(heard, open.context, open.spec);
  if (event.kind === "pause") {
    // Ended early only when nothing more can belong to it; else the silence must run its length.
    if (!isWhole(heard, parsed)) return;
    endpointer.cut();
  }
  const lag = performance.now() - frameTime + (clock - event.end) * 1000;
  if (heard.verdict !== "nothing") post({ type: "heard", heard, parsed, pcm: event.pcm, rate, lag }, [event.pcm.buffer]);
}

function takeFrame(pcm: Float32Array, rate: number): void {
  if (!listening || ear === undefined) return;
  endpointer ??= new Endpointer({ rate });
  frameTime = performance.now();
  clock += pcm.length / rate;
  for (const event of endpointer.push(pcm)) {
    if (event.kind === "start") post({ type: "speech" });
    else hearSpeech(event, rate);
  }
  frames += 1;
  if (frames % LEVEL_EVERY_FRAMES === 0) {
    const level = 10 * Math.log10(pcm.reduce((sum, sample) => sum + sample * sample, 0) / pcm.length + 1e-10);
    post({ type: "level", level, floor: endpointer.floor ?? level });
  }
}

async function openEar(modelBase: string): Promise<void> {
  const start = performance.now();
  try {
    ear = await Ear.open(createModule as unknown as EngineFactory, modelBase);
    post({ type: "ready", milliseconds: performance.now() - start });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    post({ type: "failed", code: "ear_not_loaded", message: `Expected the recogniser to load, got: ${why}` });
  }
}

function take(request: EarRequest): void {
  if (request.type === "open") void openEar(request.modelBase);
  else if (request.type === "context") {
    open = request;
    ear?.prepare(optionsOf(request));
  } else if (request.type === "frames")
    request.port.onmessage = ({ data }: MessageEvent) => guarded(() => takeFrame(data.pcm, data.rate));
  else if (request.type === "frame") takeFrame(request.pcm, request.rate);
  else if (request.type === "listen") {
    listening = request.on;
    endpointer?.drop();
  } else if (ear === undefined || open === undefined) {
    post({ type: "failed", code: "ear_not_loaded", message: "Expected the ear to be open before a clip, got a clip first" });
  } else if (request.type === "calibrate") {
    post({ type: "calibrated", id: request.id, speaker: calibrate(ear, request.name, request.phrases, open.spec) });
  } else {
    const { id, pcm, rate, quick = false } = request;
    const heard = ear.hear(pcm, rate, { ...optionsOf(open), quick });
    post({ type: "heard", id, heard, parsed: understand(heard, open.context, open.spec), pcm, rate, lag: 0 }, [pcm.buffer]);
  }
}

function guarded(work: () => void): void {
  try {
    work();
  } catch (error) {
    post({ type: "failed", code: "ear_failed", message: error instanceof Error ? error.message : String(error) });
  }
}

self.addEventListener("message", ({ data }: MessageEvent<EarRequest>) => guarded(() => take(data)));
