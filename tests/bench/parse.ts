// How many plain numbers this parser and three general-purpose libraries read right, and how long a sentence takes each;
// biome-ignore-all lint/suspicious/noConsole: a benchmark prints.
// then how long a bench sentence takes. Prints a table. `--data DIR` holds agreed.jsonl, negatives.jsonl, conflicts.jsonl.
import { existsSync, readFileSync } from "node:fs";
import { loadavg } from "node:os";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { parseArgs } from "node:util";
import Recognizers from "@microsoft/recognizers-text-suite";
import nlp from "compromise";
import wordsToNumbersModule from "words-to-numbers";
import { parse, readNumbers } from "../../extractors/speech/index.ts";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";
import { TABLES } from "../extractors/speech/cases/all.ts";
import { NO_NUMBER, NUMBER_CASES } from "../extractors/speech/cases/numbers.ts";

interface Row {
  readonly text: string;
  readonly value: number;
  readonly measure: boolean;
}

/** Numbers an engine finds in a sentence; `measure` tells that one with a unit is looked for. */
type Engine = (text: string, measure: boolean) => readonly number[];

const CULTURE = "en-us";
const wordsToNumbers = wordsToNumbersModule as unknown as {
  wordsToNumbers(text: string): string | number | null;
};

const ENGINES: Readonly<Record<string, Engine>> = {
  "this parser": (text) => readNumbers(text).map((number) => number.value),
  "@microsoft/recognizers-text-suite": (text, measure) => {
    const found = measure
      ? [...Recognizers.recognizeDimension(text, CULTURE), ...Recognizers.recognizeTemperature(text, CULTURE)]
      : Recognizers.recognizeNumber(text, CULTURE);
    return found.map((one) => Number(one.resolution?.value));
  },
  compromise: (text) => {
    const found = nlp(text).numbers().json() as { number?: { num?: number } }[];
    return found.map((one) => Number(one.number?.num));
  },
  "words-to-numbers": (text) => {
    const out = wordsToNumbers.wordsToNumbers(text);
    return (String(out ?? "").match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);
  },
};

const ROUNDS = 7;
const WARM_UP = 2;

/** Exactly one number, and that one. */
function hits(found: readonly number[], value: number): boolean {
  return found.length === 1 && Math.abs((found[0] ?? Number.NaN) - value) <= 1e-6 * Math.max(1, Math.abs(value));
}

function lines(file: string): Record<string, unknown>[] {
  return readFileSync(file, "utf8")
    .split("\n")
    .filter((line) => line.trim() !== "")
    .map((line) => JSON.parse(line) as Record<string, unknown>);
}

interface Data {
  readonly rows: readonly Row[];
  readonly negatives: readonly string[];
  readonly conflicts: readonly Record<string, unknown>[];
}

function load(dir: string | undefined): Data {
  if (dir === undefined) {
    const rows = NUMBER_CASES.flatMap(([value, unit, say]) => say.map((text) => ({ text, value, measure: unit !== undefined })));
    return { rows, negatives: NO_NUMBER, conflicts: [] };
  }
  const rows = lines(join(dir, "agreed.jsonl")).map((row) => ({
    text: String(row.in),
    value: Number(row.value),
    measure: row.kind === "measure",
  }));
  const optional = (name: string) => (existsSync(join(dir, name)) ? lines(join(dir, name)) : []);
  return { rows, negatives: optional("negatives.jsonl").map((row) => String(row.in)), conflicts: optional("conflicts.jsonl") };
}

const median = (values: number[]): number => values.sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
const us = (value: number): string => value.toFixed(value < 100 ? 1 : 0).padStart(8);

/** Every engine over every sentence, round by round, so that a busy moment of the machine falls on all of them. */
function compare({ rows, negatives }: Data): void {
  const times = new Map(Object.keys(ENGINES).map((name) => [name, { all: [] as number[], least: Number.POSITIVE_INFINITY }]));
  for (let round = 0; round < WARM_UP + ROUNDS; round++) {
    for (const [name, engine] of Object.entries(ENGINES)) {
      const started = performance.now();
      const took: number[] = [];
      for (const row of rows) {
        const before = performance.now();
        engine(row.text, row.measure);
        took.push((performance.now() - before) * 1000);
      }
      if (round < WARM_UP) continue;
      const record = times.get(name);
      record?.all.push(...took);
      if (record !== undefined) record.least = Math.min(record.least, ((performance.now() - started) * 1000) / rows.length);
    }
  }
  console.log(`${rows.length} sentences, ${negatives.length} with no number; us a sentence over ${ROUNDS} interleaved rounds`);
  console.log(`${"".padEnd(36)}  right        %  false   min mean    median`);
  for (const [name, engine] of Object.entries(ENGINES)) {
    const right = rows.filter((row) => hits(engine(row.text, row.measure), row.value)).length;
    const wrong = negatives.filter((text) => engine(text, false).length > 0).length;
    const record = times.get(name);
    const share = ((100 * right) / rows.length).toFixed(1);
    console.log(
      `${name.padEnd(36)} ${String(right).padStart(6)} ${share.padStart(8)} ${String(wrong).padStart(6)}  ${us(record?.least ?? Number.NaN)}  ${us(median(record?.all ?? []))}`,
    );
  }
}

/** What this parser answers where the libraries and the bench differ. */
function listConflicts(conflicts: Data["conflicts"]): void {
  const answered = conflicts.flatMap((row) => {
    const found = readNumbers(String(row.in));
    return found.length === 0
      ? []
      : [`  ${JSON.stringify(row.in)}: ${found.map((n) => `${n.value}${n.unit === undefined ? "" : ` ${n.unit}`}`).join(", ")}`];
  });
  console.log(
    `\n${conflicts.length} sentences the bench reads otherwise: ${conflicts.length - answered.length} left alone, the rest as`,
  );
  console.log(answered.join("\n"));
}

function benchSentences(): void {
  const texts = Object.values(TABLES).flatMap((table) => [...table.accepted, ...table.refused].flatMap((row) => row.say));
  const all: number[] = [];
  const least = new Map<string, number>();
  for (let round = 0; round < 5 * (WARM_UP + ROUNDS); round++) {
    for (const text of texts) {
      const before = performance.now();
      parse(text, {}, DEMO_SPEC);
      const took = (performance.now() - before) * 1000;
      if (round < 5 * WARM_UP) continue;
      all.push(took);
      least.set(text, Math.min(least.get(text) ?? Number.POSITIVE_INFINITY, took));
    }
  }
  console.log(
    `\nparse() on ${texts.length} bench sentences: median ${us(median(all)).trim()} us, median of each sentence's least ${us(median([...least.values()])).trim()} us`,
  );
  const pieces = [
    "ring gap two top twelve thou ",
    "two ",
    "half a thou and ",
    "to two too for ",
    "no, ",
    "crack ",
    "a".repeat(2000),
    "point ",
  ];
  let worst = 0;
  for (const piece of pieces) {
    const text = piece.repeat(2000 / piece.length);
    let took = Number.POSITIVE_INFINITY;
    for (let k = 0; k < 5; k++) {
      const before = performance.now();
      parse(text, {}, DEMO_SPEC);
      took = Math.min(took, performance.now() - before);
    }
    worst = Math.max(worst, took);
  }
  console.log(`parse() on texts of 2,000 characters: worst ${worst.toFixed(2)} ms`);
}

const { values } = parseArgs({ options: { data: { type: "string" } } });
const data = load(values.data);
console.log(
  `load ${loadavg()
    .map((n) => n.toFixed(1))
    .join(" ")}, node ${process.version}`,
);
compare(data);
if (data.conflicts.length > 0) listConflicts(data.conflicts);
benchSentences();
console.log(
  `load ${loadavg()
    .map((n) => n.toFixed(1))
    .join(" ")}`,
);
