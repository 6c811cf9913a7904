// Fits the doubt: sentences of the bench and talk, said by voices that the network was not trained on, clean and in noise, are heard; the
// evidence of each and whether its meaning was right give the weights of one logistic chance. Writes model/weights.ts.
// Usage: tsx extractors/hearing/training/doubt.ts --clips FOLDER [--sentences N] [--talk FILE]; needs espeak-ng. Clips are kept in FOLDER.
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { parseArgs } from "node:util";
import type { Context } from "../../../shared/events/reading.ts";
import { ALL_QUANTITIES } from "../../../shared/quantities/registry.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { AcousticNetwork } from "../acoustic/network.ts";
import { mixAt, pinkNoise, seeded } from "../audio/noise.ts";
import { resample } from "../audio/resample.ts";
import { readWav } from "../audio/wav.ts";
import { featuresOf, logistic } from "../doubt.ts";
import { Ear } from "../ear.ts";
import { grammarsFor } from "../grammar/index.ts";
import { randomSentence } from "../grammar/walk.ts";
import { meaningOf } from "../meaning.ts";
import { readNetwork } from "../node/model-files.ts";
import { sentenceOf } from "../text.ts";
import type { Evidence } from "../types.ts";

const { values } = parseArgs({
  options: {
    clips: { type: "string" },
    sentences: { type: "string", default: "240" },
    talk: { type: "string" },
  },
});
if (values.clips === undefined) throw new Error("Expected --clips FOLDER, got none");
const clips = values.clips;
mkdirSync(clips, { recursive: true });

/** Variants that speak.py keeps apart. */
const VOICES = ["m1", "f3", "klatt2", "steph2", "max", "grandpa", "linda"].flatMap((variant) =>
  ["en-us", "en-gb", "en-gb-scotland"].map((accent) => `${accent}+${variant}`),
);
const random = seeded(11);
const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;

interface Said {
  readonly text: string;
  readonly context: Context;
  /** What it must come to; undefined for talk. */
  readonly meaning: string | undefined;
}

const CONTEXTS: readonly Context[] = [
  {},
  { quantity: "ring_end_gap", place: { cylinder: 2, ring: "top" } },
  { quantity: "bore_diameter", place: { cylinder: 3, depth: "top", axis: "thrust" } },
  { quantity: "bearing_clearance", place: { rod: 2 } },
  ...ALL_QUANTITIES.filter((_, index) => index % 9 === 4).map(({ id }): Context => ({ quantity: id })),
];

function* bench(count: number): Generator<Said> {
  for (let n = 0; n < count; n += 1) {
    const context = CONTEXTS[n % CONTEXTS.length] ?? {};
    const grammars = grammarsFor(DEMO_SPEC, context);
    const words = randomSentence((grammars[n % 3 === 0 ? grammars.length - 1 : 0] ?? pick(grammars)).start(), random);
    if (words.some((word) => word.startsWith("+")) || words.length > 14) continue;
    const text = sentenceOf(words);
    yield { text, context, meaning: meaningOf(text, context, DEMO_SPEC) };
  }
}

function* talk(count: number): Generator<Said> {
  const lines = values.talk === undefined ? [] : readFileSync(values.talk, "utf8").trim().split("\n");
  for (let n = 0; n < Math.min(count, lines.length); n += 1)
    yield { text: pick(lines), context: CONTEXTS[n % CONTEXTS.length] ?? {}, meaning: undefined };
}

function speak({ text }: Said, number: number): Float32Array {
  const file = path.join(clips, `${number}.wav`);
  if (!existsSync(file)) {
    const said = text
      .replace(/\bthou\b/g, "[[TaU]]")
      .replace(/\bb\b/g, "[[bi:]]")
      .replace(/\bpsi\b/g, "p s i")
      .replace(/\bcc\b/g, "c c");
    const [speed, pitch] = [120 + Math.floor(random() * 90), 15 + Math.floor(random() * 70)];
    execFileSync("espeak-ng", ["-v", pick(VOICES), "-s", String(speed), "-p", String(pitch), "-w", file, said]);
  }
  const { pcm, rate } = readWav(readFileSync(file));
  // Throats of all lengths: most people sound less like a trained voice than a kept-apart variant of one does.
  const speech = resample(pcm, rate * (0.78 + random() * 0.5), 16_000);
  const padded = new Float32Array(speech.length + 11_200);
  padded.set(speech, 4800);
  return padded.map((sample, index) => sample + Math.sin(index * 12.9898) * 0.0004);
}

/** Nothing of the free string of phones is lost, and custom alone speaks for the sentence. */
const SAME_SOUNDS = 0.02;
const CUSTOM = 4;

const network = await AcousticNetwork.open(await readNetwork());
const ear = new Ear(network);
const rows: { readonly evidence: Evidence; readonly right: boolean }[] = [];
const count = Number(values.sentences);
for (const [number, said] of [...bench(count), ...talk(count)].entries()) {
  const clean = speak(said, number);
  for (const decibels of [undefined, 5 + random() * 15]) {
    const pcm = decibels === undefined ? clean : mixAt(clean, pinkNoise(clean.length, seeded(number)), decibels);
    const posteriors = await network.posteriors(pcm);
    const { evidence, best } = ear.rank(posteriors, { spec: DEMO_SPEC, context: said.context });
    if (best === undefined) continue;
    const right = said.meaning !== undefined && meaningOf(best, said.context, DEMO_SPEC) === said.meaning;
    // Other words with the very sounds that were heard: sentences drawn with no regard to custom are full of these, a bench is not.
    if (!right && evidence.gap < SAME_SOUNDS && evidence.lead > CUSTOM) continue;
    rows.push({ evidence, right });
  }
}
await ear.close();
writeFileSync(path.join(clips, "evidence.json"), JSON.stringify(rows));

/** Solve a small system of equations (Gauss, with pivots). */
function solve(matrix: number[][], right: number[]): number[] {
  const size = right.length;
  const rows = matrix.map((row, index) => [...row, right[index] ?? 0]);
  for (let at = 0; at < size; at += 1) {
    const pivot = rows.slice(at).reduce((best, row) => (Math.abs(row[at] ?? 0) > Math.abs(best[at] ?? 0) ? row : best));
    rows.splice(rows.indexOf(pivot), 1);
    rows.splice(at, 0, pivot);
    for (const row of rows) {
      if (row === pivot) continue;
      const times = (row[at] ?? 0) / (pivot[at] ?? 1);
      for (let k = at; k <= size; k += 1) row[k] = (row[k] ?? 0) - times * (pivot[k] ?? 0);
    }
  }
  return rows.map((row, at) => (row[size] ?? 0) / (row[at] ?? 1));
}

/** A light ridge: no weight is driven far by a few clips. */
const RIDGE: number = 0.3;

/** Weights of the likeliest logistic model, by Newton's steps. */
function fitted(sample: typeof rows): readonly number[] {
  const features = sample.map(({ evidence }) => featuresOf(evidence));
  let weights = (features[0] ?? []).map(() => 0);
  for (let step = 0; step < 30; step += 1) {
    const slope = weights.map((weight) => weight * RIDGE);
    const bend = weights.map((_, k) => weights.map((__, l) => (k === l ? RIDGE : 0)));
    features.forEach((row, index) => {
      const chance = logistic(weights, row);
      const off = chance - (sample[index]?.right === true ? 1 : 0);
      row.forEach((x, k) => {
        slope[k] = (slope[k] ?? 0) + off * x;
        const line = bend[k] ?? [];
        row.forEach((y, l) => {
          line[l] = (line[l] ?? 0) + chance * (1 - chance) * x * y;
        });
      });
    });
    const move = solve(bend, slope);
    weights = weights.map((weight, k) => weight - (move[k] ?? 0));
  }
  return weights;
}

const weights = fitted(rows).map((weight) => Number(weight.toFixed(3)));
writeFileSync(
  path.join(import.meta.dirname, "../model/weights.ts"),
  `// Written by training/doubt.ts: the fitted weights of the doubt, in the order of its features.\nexport const WEIGHTS: readonly number[] = [${weights.join(", ")}];\n`,
);
// How well the chance is calibrated: fitted on even rows, told of odd ones.
const half = fitted(rows.filter((_, index) => index % 2 === 0));
const bins = [0, 0.02, 0.1, 0.25, 0.5, 0.75, 0.9, 0.97, 0.99, 0.997, 1.01];
process.stdout.write(
  `${rows.length} clips, ${rows.filter(({ right }) => right).length} right; weights ${weights.join(" ")}\nchance          clips  mean   right\n`,
);
for (let bin = 0; bin + 1 < bins.length; bin += 1) {
  const [low, high] = [bins[bin] ?? 0, bins[bin + 1] ?? 1];
  const inside = rows
    .filter((_, index) => index % 2 === 1)
    .map((row) => ({ ...row, chance: logistic(half, featuresOf(row.evidence)) }))
    .filter(({ chance }) => chance >= low && chance < high);
  const mean = (of: (row: (typeof inside)[number]) => number) =>
    (inside.reduce((sum, row) => sum + of(row), 0) / Math.max(1, inside.length)).toFixed(3);
  process.stdout.write(
    `${low.toFixed(3)}-${Math.min(1, high).toFixed(3)}  ${String(inside.length).padStart(6)}  ${mean(({ chance }) => chance)}  ${mean(({ right }) => (right ? 1 : 0))}\n`,
  );
}
