// The real parser and recogniser, opened once a process.
import { readWav, understand, writeWav } from "../extractors/hearing/index.ts";
import { openHearer } from "../extractors/hearing/node/index.ts";
import { parse } from "../extractors/speech/index.ts";
import { DEMO_SPEC } from "../shared/spec/demo-engine.ts";
import type { Hearing } from "./deps.ts";
import type { Senses } from "./open-shop.ts";

const round = (seconds: number) => Math.round(seconds * 1000) / 1000;

/**
 * The ear in a thread of its own: it loads while the server already answers, and clips wait for it.
 * @param late load it at the first clip
 */
export function openSenses(late = false): Senses {
  const hearer = openHearer();
  let state: ReturnType<Hearing["state"]> = "loading";
  const hearing: Hearing = {
    state: () => state,
    hear: async (wav, context, spec) => {
      const { pcm, rate } = readWav(wav);
      const heard = await hearer.hear(pcm, rate, { context, spec });
      state = "ready";
      return { heard: heard.text, seconds: round(heard.seconds), parsed: understand(heard, context, spec) };
    },
  };
  // Silence is heard once, so that the model is loaded before the first clip comes.
  if (!late)
    hearing.hear(silence(), {}, DEMO_SPEC).catch(() => {
      state = "absent";
    });
  return { parse, hearing, close: () => hearer.close() };
}

/** A fifth of a second of silence as a 16-bit WAV file. */
function silence(): Uint8Array {
  return writeWav({ pcm: new Float32Array(3200), rate: 16_000 });
}
