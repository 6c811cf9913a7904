// `npm run bench:hear`: synthetic voices that the network was not trained on, clean and in noise, through the ear as the bench uses it;
// nobody has read anything aloud. Prints a table; fails nothing. Voices: flite kal (8 kHz), kal16 and slt, and festival's kal and
// parametric slt where Debian's packages are installed (apt-get install festival festvox-kallpc16k festvox-us-slt-hts).
import { parseArgs } from "node:util";
import { type NoiseKind, shopNoise } from "../../demo-data/shop-noise.ts";
import { festivalVoice, fliteVoice } from "../../demo-data/voices.ts";
import { mixAt } from "../../extractors/hearing/audio/noise.ts";
import { resample, understand } from "../../extractors/hearing/index.ts";
import { openHearer } from "../../extractors/hearing/node/index.ts";
import type { Context, Parsed } from "../../shared/events/reading.ts";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";
import { CHAT, SENTENCES } from "./hear/sentences.ts";
import { row, TABLE_HEAD, Tally } from "./hear/tally.ts";
import { BROKEN_OFF, SHOP_TALK, Unsaid } from "./hear/unsaid.ts";

const RATE = 16_000;
const { values } = parseArgs({
  options: {
    sentences: { type: "string", default: String(SENTENCES.length) },
    minutes: { type: "string", default: "10" },
    only: { type: "string" },
    part: { type: "string" },
  },
});
const sentences = SENTENCES.slice(0, Number(values.sentences));

const VOICES = [
  fliteVoice("kal"),
  fliteVoice("kal16"),
  fliteVoice("slt"),
  festivalVoice("kal_diphone"),
  festivalVoice("cmu_us_slt_arctic_hts"),
].filter((voice) => voice !== undefined);
const CONDITIONS: readonly { readonly name: string; readonly kind?: NoiseKind; readonly db?: number }[] = [
  { name: "clean" },
  ...(["pink", "hum", "impact"] as const).flatMap((kind) => [20, 10].map((db) => ({ name: `${kind} ${db} dB`, kind, db }))),
].filter(({ name }) => values.only === undefined || values.only.split(",").some((word) => name.includes(word)));

const print = (line: string) => process.stdout.write(`${line}\n`);
const hearer = openHearer();

/** Speech between stretches of a quiet room, at 16 kHz. */
async function clipOf(voice: (typeof VOICES)[number], text: string): Promise<Float32Array> {
  const said = await voice.say(text);
  const speech = resample(said.pcm, said.rate, RATE);
  const pcm = new Float32Array(speech.length + RATE * 0.7);
  pcm.set(speech, Math.round(RATE * 0.3));
  return pcm.map((sample, index) => sample + Math.sin(index * 12.9898) * 0.0004);
}

const noisy = (pcm: Float32Array, { kind, db }: (typeof CONDITIONS)[number], seed: number) =>
  kind === undefined || db === undefined ? pcm : mixAt(pcm, shopNoise(kind, pcm.length, RATE, seed), db);

/** What a clip comes to, and the processor seconds of all threads that it took: the machine may be busy with other things. */
async function heardAs(pcm: Float32Array, context: Context): Promise<{ readonly parsed: Parsed; readonly spent: number }> {
  // The bench makes the grammar ready when the step is opened, before anything is said.
  await hearer.prepare({ spec: DEMO_SPEC, context });
  const before = process.cpuUsage();
  const parsed = understand(await hearer.hear(pcm, RATE, { spec: DEMO_SPEC, context }), context, DEMO_SPEC);
  return { parsed, spent: process.cpuUsage(before).user / 1e6 };
}

/** One row a condition, printed as soon as it is done; a row a voice when clean. */
async function sentencesTable(): Promise<void> {
  print(`${sentences.length} sentences a voice; voices, none trained on: ${VOICES.map(({ name }) => name).join(", ")}`);
  print(TABLE_HEAD);
  for (const condition of CONDITIONS) {
    const all = new Tally();
    for (const [index, voice] of VOICES.entries()) {
      const own = new Tally();
      for (const [number, sentence] of sentences.entries()) {
        const pcm = noisy(await clipOf(voice, sentence.say), condition, index * 1000 + number);
        const { parsed, spent } = await heardAs(pcm, sentence.context);
        for (const tally of [all, own]) tally.add(sentence, parsed, spent, pcm.length / RATE);
      }
      if (condition.kind === undefined) print(row(`  ${voice.name}`, own));
    }
    print(row(condition.name, all));
  }
}

function chatSource(): () => Promise<Float32Array> {
  let turn = 0;
  return async () => {
    const voice = VOICES[turn % VOICES.length];
    const text = CHAT[Math.floor(turn / VOICES.length) % CHAT.length];
    turn += 1;
    if (voice === undefined || text === undefined) throw new Error("Expected voices and chat");
    return clipOf(voice, text);
  };
}

function noiseSource(kind: NoiseKind): () => Promise<Float32Array> {
  let turn = 0;
  return async () => {
    turn += 1;
    return shopNoise(kind, RATE * 4, RATE, turn).map((sample) => sample * 0.05);
  };
}

/** What chat and noise bring about: readings, commands and questions, by stretch. */
async function falseReadings(): Promise<void> {
  const sounds: readonly (readonly [string, () => Promise<Float32Array>])[] = [
    ["chat", chatSource()],
    ...(["pink", "hum", "impact", "compressor"] as const).map((kind) => [`${kind} noise`, noiseSource(kind)] as const),
  ];
  for (const [name, next] of sounds) {
    let [seconds, stretches, taken, asked] = [0, 0, 0, 0];
    while (seconds < Number(values.minutes) * 60) {
      const pcm = await next();
      const { parsed } = await heardAs(pcm, { step: "rings" });
      const { readings, commands, questions } = parsed;
      if (readings.some((reading) => reading.do === "accept") || commands.length > 0) taken += 1;
      else if (readings.length + questions.length > 0) asked += 1;
      stretches += 1;
      seconds += pcm.length / RATE;
    }
    print(`${name}: ${(seconds / 60).toFixed(1)} min, ${stretches} stretches, ${taken} taken, ${asked} asked about`);
  }
}

/** Sentences without a figure, in a quiet room: what they came to. */
async function withoutFigures(): Promise<void> {
  for (const [name, list] of [
    ["broken off before the figure", BROKEN_OFF],
    ["talk about the trade", SHOP_TALK],
  ] as const) {
    const counted = new Unsaid();
    for (const voice of VOICES)
      for (const sentence of list)
        counted.add(sentence, (await heardAs(await clipOf(voice, sentence.say), sentence.context)).parsed);
    const { right, asked, nothing, accepted } = counted;
    print(
      `${name}: ${list.length * VOICES.length} sentences, ${right} taken for what they are, ${asked} asked or waiting, ${nothing} nothing, ${accepted} figures accepted`,
    );
  }
}

const PARTS: Readonly<Record<string, () => Promise<void>>> = {
  sentences: sentencesTable,
  unsaid: withoutFigures,
  talk: falseReadings,
};
for (const [part, run] of Object.entries(PARTS)) if ((values.part ?? part) === part) await run();
await hearer.close();
