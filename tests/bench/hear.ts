// `npm run bench:hear`: synthetic voices that tuning did not use, clean and in noise, through the ear as the bench uses it, and
// beside them the same audio through the recogniser's stock dictionary with a plain grammar. Prints a table; fails nothing.
// Each voice has read the calibration aloud once, in quiet, as the bench asks who works there to do; with `--strangers` none has.
// Tuning voices: flite rms, kal16, awb, slt; festival kal and ked; espeak en-us. Reporting voices: festival's parametric slt
// where Debian's packages are installed (apt-get install festival festvox-us-slt-hts), flite kal (8 kHz), and three accents of a
// formant synthesiser: espeak en-gb, en-gb-scotland and en-gb-x-rp.
import { parseArgs } from "node:util";
import { type NoiseKind, shopNoise } from "../../demo-data/shop-noise.ts";
import { espeakVoice, festivalVoice, fliteVoice, type Voice } from "../../demo-data/voices.ts";
import { mixAt } from "../../extractors/hearing/audio/noise.ts";
import { CALIBRATION_PHRASES, type Hearer, resample, type Speaker, understand } from "../../extractors/hearing/index.ts";
import { openHearer } from "../../extractors/hearing/node/index.ts";
import type { KnownPhrase } from "../../extractors/hearing/types.ts";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";
import { openPlain } from "./hear/plain.ts";
import { CHAT, SENTENCES } from "./hear/sentences.ts";
import { row, TABLE_HEAD, Tally } from "./hear/tally.ts";
import { BROKEN_OFF, SHOP_TALK, Unsaid } from "./hear/unsaid.ts";

const RATE = 16_000;
const { values } = parseArgs({
  options: {
    // A row of sixty could not tell one in a hundred silently wrong from none.
    sentences: { type: "string", default: String(SENTENCES.length) },
    minutes: { type: "string", default: "10" },
    only: { type: "string" },
    part: { type: "string" },
    strangers: { type: "boolean", default: false },
    answers: { type: "boolean", default: false },
  },
});
const sentences = SENTENCES.slice(0, Number(values.sentences));
const minutes = Number(values.minutes);

const VOICES = [
  festivalVoice("cmu_us_slt_arctic_hts"),
  fliteVoice("kal"),
  espeakVoice("en-gb", 150, 45),
  espeakVoice("en-gb-scotland", 145, 55),
  espeakVoice("en-gb-x-rp", 150, 35),
].filter((voice) => voice !== undefined);
const CONDITIONS: readonly { readonly name: string; readonly kind?: NoiseKind; readonly db?: number }[] = [
  { name: "clean" },
  ...(["pink", "hum", "impact"] as const).flatMap((kind) => [20, 10, 5].map((db) => ({ name: `${kind} ${db} dB`, kind, db }))),
].filter(({ name }) => values.only === undefined || values.only.split(",").some((word) => name.includes(word)));

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

/** The one-minute calibration, read aloud by the voice. */
async function calibrated(hearer: Hearer, voice: Voice): Promise<Speaker> {
  const phrases: KnownPhrase[] = [];
  for (const text of CALIBRATION_PHRASES) phrases.push({ pcm: await clipOf(voice, text), rate: RATE, text });
  return hearer.calibrate(voice.name, phrases, DEMO_SPEC);
}

/** Everybody who is known to the ear, in the order of the voices; nobody with `--strangers`. */
async function speakersBy(hearer: Hearer): Promise<readonly Speaker[]> {
  const speakers: Speaker[] = [];
  if (!values.strangers) for (const voice of VOICES) speakers.push(await calibrated(hearer, voice));
  return speakers;
}

/** Somebody else, of whom nothing is known: an ear that attends to them forgets what it learnt of the voice before. */
const SOMEBODY: Speaker = { format: "thoubook-speaker/1", name: "somebody else", warp: 1, noise: -60, right: 0, phrases: 0 };

/**
 * One row a condition, printed as soon as it is done: ours, and the plain recogniser beside it; a row a voice when clean. With
 * `--answers` the voice says "confirm" after a sentence that waits with the right reading in hand, as who works with it does.
 */
async function sentencesTable(): Promise<void> {
  const known = values.strangers ? "unknown to the ear" : "each read the calibration aloud once";
  print(`${sentences.length} sentences a voice; voices, ${known}: ${VOICES.map(({ name }) => name).join(", ")}`);
  print(TABLE_HEAD);
  const plain = await openPlain();
  // One ear a voice, as one machinist has one phone; as there, it learns the voice from what it hears without doubt, from each row anew.
  const ears: { voice: Voice; hearer: Hearer; speaker: Speaker | undefined }[] = [];
  for (const voice of VOICES) {
    const hearer = openHearer({ learns: true });
    ears.push({ voice, hearer, speaker: values.strangers ? undefined : await calibrated(hearer, voice) });
  }
  for (const condition of CONDITIONS) {
    const ours = new Tally();
    const theirs = new Tally();
    let learning = 0;
    for (const [index, { voice, hearer, speaker }] of ears.entries()) {
      const own = new Tally();
      await hearer.prepare({ spec: DEMO_SPEC, context: {}, speaker: SOMEBODY });
      for (const [number, sentence] of sentences.entries()) {
        const pcm = noisy(await clipOf(voice, sentence.say), condition, index * 1000 + number);
        const options = { spec: DEMO_SPEC, context: sentence.context, ...(speaker === undefined ? {} : { speaker }) };
        // The bench makes the grammars ready when the step is opened, before anything is said.
        await hearer.prepare(options);
        const before = process.cpuUsage();
        const heard = await hearer.hear(pcm, RATE, options);
        const parsed = understand(heard, sentence.context, DEMO_SPEC);
        const spent = cpuSeconds(before);
        // Between sentences the ear learns the voice: that is computing too, but neither the sentence's nor the stock recogniser's.
        const idle = process.cpuUsage();
        await hearer.prepare(options);
        learning += cpuSeconds(idle);
        const waited = own.yes;
        for (const tally of [ours, own]) tally.add(sentence, parsed, spent, pcm.length / RATE);
        if (values.answers && own.yes > waited)
          await hearer.hear(noisy(await clipOf(voice, "confirm"), condition, number), RATE, options);
        const start = process.cpuUsage();
        const other = plain.hear(pcm, sentence.context);
        theirs.add(sentence, other, cpuSeconds(start), pcm.length / RATE);
      }
      if (condition.kind === undefined) print(row(`  ${voice.name}`, own));
    }
    print(row(condition.name, ours));
    print(row("  stock dictionary, plain grammar", theirs));
    print(`  learning the voices, between sentences: ${(learning / ours.speech).toFixed(3)} s a second of speech`);
  }
  for (const { hearer } of ears) await hearer.close();
}

/** A clip that is no reading, and who speaks in it, if the ear knows the voice. */
interface Talk {
  readonly pcm: Float32Array;
  readonly speaker?: Speaker;
}

/** Accepted readings (and what waits for a yes) that chat and noise bring about, a minute. */
async function falseReadings(): Promise<void> {
  const hearer = openHearer();
  const context = { step: "rings" as const };
  const speakers = await speakersBy(hearer);
  const sounds: readonly (readonly [string, () => Promise<Talk>])[] = [
    ["chat", chatSource(speakers)],
    ...(["pink", "hum", "impact", "compressor"] as const).map((kind) => [`${kind} noise`, noiseSource(kind)] as const),
  ];
  for (const [name, next] of sounds) {
    let seconds = 0;
    let accepted = 0;
    let waiting = 0;
    const most = name === "chat" ? minutes * 60 : (minutes * 60) / 4;
    while (seconds < most) {
      const { pcm, ...who } = await next();
      const heard = await hearer.hear(pcm, RATE, { spec: DEMO_SPEC, context, ...who });
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

function chatSource(speakers: readonly Speaker[]): () => Promise<Talk> {
  let turn = 0;
  return async () => {
    const voice = VOICES[turn % VOICES.length];
    const speaker = speakers[turn % VOICES.length];
    const text = CHAT[Math.floor(turn / VOICES.length) % CHAT.length];
    turn += 1;
    if (voice === undefined || text === undefined) throw new Error("Expected voices and chat");
    return { pcm: await clipOf(voice, text), ...(speaker === undefined ? {} : { speaker }) };
  };
}

function noiseSource(kind: NoiseKind): () => Promise<Talk> {
  let turn = 0;
  return async () => {
    turn += 1;
    return { pcm: shopNoise(kind, RATE * 4, RATE, turn).map((sample) => sample * 0.05) };
  };
}

/** Sentences without a figure, in a quiet room: what they came to. */
async function withoutFigures(): Promise<void> {
  const reader = openHearer();
  const speakers = await speakersBy(reader);
  await reader.close();
  for (const [name, list] of [
    ["broken off before the figure", BROKEN_OFF],
    ["talk about the trade", SHOP_TALK],
  ] as const) {
    const counted = new Unsaid();
    for (const [index, voice] of VOICES.entries()) {
      const hearer = openHearer({ learns: true });
      const speaker = speakers[index];
      for (const sentence of list) {
        const options = { spec: DEMO_SPEC, context: sentence.context, ...(speaker === undefined ? {} : { speaker }) };
        await hearer.prepare(options);
        const heard = await hearer.hear(await clipOf(voice, sentence.say), RATE, options);
        counted.add(sentence, understand(heard, sentence.context, DEMO_SPEC));
      }
      await hearer.close();
    }
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
