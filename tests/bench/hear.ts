// `npm run bench:hear`: synthetic voices that tuning did not use, clean and in noise, through the ear as the bench uses it, and
// beside them the same audio through the recogniser's stock dictionary with a plain grammar. Prints a table; fails nothing.
// Tuning voices: flite kal16, awb, slt; espeak en-us 150/50. Reporting voices: flite rms, espeak en-gb,
// en-gb-scotland and en-gb-x-rp: one natural-sounding voice and three accents of a formant synthesiser.
import { parseArgs } from "node:util";
import { mixAt, type NoiseKind, shopNoise } from "../../demo-data/shop-noise.ts";
import { espeakVoice, fliteVoice } from "../../demo-data/voices.ts";
import { resample, understand } from "../../extractors/hearing/index.ts";
import { openHearer } from "../../extractors/hearing/node/index.ts";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";
import { openPlain } from "./hear/plain.ts";
import { CHAT, SENTENCES } from "./hear/sentences.ts";
import { row, TABLE_HEAD, Tally } from "./hear/tally.ts";

const RATE = 16_000;
const { values } = parseArgs({
  options: { sentences: { type: "string", default: "24" }, minutes: { type: "string", default: "10" }, only: { type: "string" } },
});
const sentences = SENTENCES.slice(0, Number(values.sentences));
const minutes = Number(values.minutes);

const VOICES = [
  fliteVoice("rms"),
  espeakVoice("en-gb", 150, 45),
  espeakVoice("en-gb-scotland", 145, 55),
  espeakVoice("en-gb-x-rp", 150, 35),
];
const CONDITIONS: readonly { readonly name: string; readonly kind?: NoiseKind; readonly db?: number }[] = [
  { name: "clean" },
  ...(["pink", "hum", "impact"] as const).flatMap((kind) => [20, 10, 5].map((db) => ({ name: `${kind} ${db} dB`, kind, db }))),
].filter(({ name }) => values.only === undefined || name.includes(values.only));

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

/** Processor seconds of all threads since `from`: the machine may be busy with other things. */
const cpuSeconds = (from: NodeJS.CpuUsage) => process.cpuUsage(from).user / 1e6;

const print = (line: string) => process.stdout.write(`${line}\n`);

/** One row a condition, printed as soon as it is done: ours, and the plain recogniser beside it. */
async function sentencesTable(): Promise<void> {
  print(`${sentences.length} sentences a voice; voices: ${VOICES.map(({ name }) => name).join(", ")}`);
  print(TABLE_HEAD);
  const plain = await openPlain();
  // One ear a voice, as one machinist has one phone.
  const ears = VOICES.map((voice) => ({ voice, hearer: openHearer() }));
  for (const condition of CONDITIONS) {
    const ours = new Tally();
    const theirs = new Tally();
    for (const [index, { voice, hearer }] of ears.entries()) {
      for (const [number, sentence] of sentences.entries()) {
        const pcm = noisy(await clipOf(voice, sentence.say), condition, index * 1000 + number);
        const before = process.cpuUsage();
        const heard = await hearer.hear(pcm, RATE, { spec: DEMO_SPEC, context: sentence.context });
        const parsed = understand(heard, sentence.context, DEMO_SPEC);
        ours.add(sentence, parsed, cpuSeconds(before), pcm.length / RATE);
        const start = process.cpuUsage();
        const other = plain.hear(pcm, sentence.context);
        theirs.add(sentence, other, cpuSeconds(start), pcm.length / RATE);
      }
    }
    print(row(condition.name, ours));
    print(row("  stock dictionary, plain grammar", theirs));
  }
  for (const { hearer } of ears) await hearer.close();
}

/** Accepted readings (and what waits for a yes) that chat and noise bring about, a minute. */
async function falseReadings(): Promise<void> {
  const hearer = openHearer();
  const context = { step: "rings" as const };
  const sounds: readonly (readonly [string, () => Promise<Float32Array>])[] = [
    ["chat", chatSource()],
    ...(["pink", "hum", "impact", "compressor"] as const).map((kind) => [`${kind} noise`, noiseSource(kind)] as const),
  ];
  for (const [name, next] of sounds) {
    let seconds = 0;
    let accepted = 0;
    let waiting = 0;
    const most = name === "chat" ? minutes * 60 : (minutes * 60) / 4;
    while (seconds < most) {
      const pcm = await next();
      const heard = await hearer.hear(pcm, RATE, { spec: DEMO_SPEC, context });
      const parsed = understand(heard, context, DEMO_SPEC);
      accepted += parsed.readings.filter((reading) => reading.do === "accept").length;
      waiting += parsed.readings.filter((reading) => reading.do === "confirm").length;
      seconds += pcm.length / RATE;
    }
    print(
      `${name}: ${(seconds / 60).toFixed(1)} min, ${accepted} accepted, ${waiting} waiting for a yes; ${(accepted / (seconds / 60)).toFixed(2)} false accepted a minute`,
    );
  }
  await hearer.close();
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

await sentencesTable();
await falseReadings();
