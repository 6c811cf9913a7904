// The ear's worker in the browser: clips in, what was heard and what it comes to out. Works without a server.
import createModule from "soundswallower";
import type { EarAnswer, EarRequest } from "./browser-messages.ts";
import { calibrate } from "./calibrate.ts";
import { Ear } from "./ear.ts";
import type { ReadModelFile } from "./engine/model.ts";
import type { EngineFactory } from "./engine/module.ts";
import type { HearOptions, Speaker } from "./types.ts";
import { understand } from "./understand.ts";

type Asked<Type extends EarRequest["type"]> = Extract<EarRequest, { type: Type }>;

const post = (answer: EarAnswer) => (self as unknown as { postMessage(message: EarAnswer): void }).postMessage(answer);

let ear: Ear | undefined;
let open: HearOptions | undefined;
let speaker: Speaker | undefined;
const left = new Set<number>();
const waiting: Exclude<EarRequest, Asked<"leave">>[] = [];
let busy = false;

/** Let messages in between two steps: one may say that the rest is of no use. */
const breathe = () => new Promise<void>((resolve) => setTimeout(resolve, 0));

/** Fetch a file of the model from where the page serves it. */
const fetchFrom =
  (modelBase: string): ReadModelFile =>
  async (name) => {
    const answer = await fetch(`${modelBase}en-us/${name}`);
    if (!answer.ok) throw new Error(`${name} answered ${answer.status}`);
    return new Uint8Array(await answer.arrayBuffer());
  };

async function openEar({ modelBase }: Asked<"open">): Promise<void> {
  try {
    ear = await Ear.open(createModule as unknown as EngineFactory, fetchFrom(modelBase));
    post({ type: "ready" });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    post({ type: "failed", code: "ear_not_loaded", message: `Expected the recogniser to load, got: ${why}` });
  }
}

async function hear({ id, pcm, rate, growing }: Asked<"hear">, by: Ear, options: HearOptions): Promise<void> {
  const hearing = by.hearing(pcm, rate, { ...options, ...growing });
  for (;;) {
    if (left.delete(id)) return post({ type: "left", id });
    const step = hearing.next();
    if (step.done === true) {
      const heard = step.value;
      return post({ type: "heard", id, heard, parsed: understand(heard, options.context, options.spec) });
    }
    if (step.value !== undefined) post({ type: "sighted", id, text: step.value.text });
    await breathe();
  }
}

async function take(request: Exclude<EarRequest, Asked<"leave">>): Promise<void> {
  if (request.type === "open") return openEar(request);
  if (request.type === "speaker") speaker = request.speaker;
  else if (request.type === "context") {
    const { spec, context } = request;
    open = { spec, context, ...(speaker === undefined ? {} : { speaker }) };
    ear?.prepare(open);
  } else if (ear === undefined || open === undefined)
    post({ type: "failed", code: "ear_not_loaded", message: "Expected the ear to be open before a clip, got a clip first" });
  else if (request.type === "hear") await hear(request, ear, open);
  else if (request.type === "confirmed") ear.confirm(request.sentence);
  else post({ type: "calibrated", id: request.id, speaker: calibrate(ear, request.name, request.phrases, open.spec) });
}

/** Nothing was asked for so long: time to learn from what was heard, a step at a time until something is asked again. */
const QUIET_MS = 1500;
let quiet: ReturnType<typeof setTimeout> | undefined;

function rest(): void {
  const learning = ear?.rest();
  if (learning === "learning") quiet = setTimeout(rest, 0);
  if (learning !== "learnt") return;
  if (open !== undefined) ear?.prepare(open);
  const learnt = ear?.learnt();
  if (learnt !== undefined) post({ type: "learnt", learnt });
}

/** Requests are done in the order they came, each to its end. */
async function work(): Promise<void> {
  if (busy) return;
  busy = true;
  for (let request = waiting.shift(); request !== undefined; request = waiting.shift()) {
    try {
      await take(request);
    } catch (error) {
      post({ type: "failed", code: "ear_failed", message: error instanceof Error ? error.message : String(error) });
    }
  }
  busy = false;
  quiet = setTimeout(rest, QUIET_MS);
}

self.addEventListener("message", ({ data }: MessageEvent<EarRequest>) => {
  clearTimeout(quiet);
  if (data.type === "leave") left.add(data.id);
  else waiting.push(data);
  void work();
});
