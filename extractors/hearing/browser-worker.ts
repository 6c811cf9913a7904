// The ear's worker in the browser: clips in, what was heard and what it comes to out. Works without a server.
import type { EarAnswer, EarRequest } from "./browser-messages.ts";
import { Ear } from "./ear.ts";
import type { HearOptions } from "./types.ts";
import { understand } from "./understand.ts";

type Asked<Type extends EarRequest["type"]> = Extract<EarRequest, { type: Type }>;

const post = (answer: EarAnswer) => (self as unknown as { postMessage(message: EarAnswer): void }).postMessage(answer);
const whyOf = (error: unknown) => (error instanceof Error ? error.message : String(error));

let ear: Ear | undefined;
let open: HearOptions | undefined;
const left = new Set<number>();
let before: Promise<void> = Promise.resolve();

async function openEar({ modelBase }: Asked<"open">): Promise<void> {
  try {
    const answer = await fetch(`${modelBase}phones.onnx`);
    if (!answer.ok) throw new Error(`phones.onnx answered ${answer.status}`);
    ear = await Ear.open(new Uint8Array(await answer.arrayBuffer()), modelBase);
    post({ type: "ready" });
  } catch (error) {
    post({ type: "failed", code: "ear_not_loaded", message: `Expected the ear to load, got: ${whyOf(error)}` });
  }
}

async function hear({ id, pcm, rate }: Asked<"hear">): Promise<void> {
  if (left.delete(id)) return post({ type: "left", id });
  if (ear === undefined || open === undefined) throw new Error("a clip before the ear was open");
  const heard = await ear.hear(pcm, rate, open);
  if (left.delete(id)) return post({ type: "left", id });
  post({ type: "heard", id, heard, parsed: understand(heard, open.context, open.spec) });
}

async function take(request: Exclude<EarRequest, Asked<"leave">>): Promise<void> {
  if (request.type === "open") return openEar(request);
  if (request.type === "hear") return hear(request);
  open = { spec: request.spec, context: request.context };
  ear?.prepare(open);
}

self.addEventListener("message", ({ data }: MessageEvent<EarRequest>) => {
  if (data.type === "leave") {
    left.add(data.id);
    return;
  }
  // In the order they came, each to its end; between two of them messages are taken in.
  before = before
    .then(() => new Promise<void>((resolve) => setTimeout(resolve, 0)))
    .then(() => take(data))
    .catch((error: unknown) =>
      post({ type: "failed", code: "ear_failed", message: whyOf(error), ...(data.type === "hear" ? { id: data.id } : {}) }),
    );
});
