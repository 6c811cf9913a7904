// The demo build, made by really doing the day book: every figure on its timeline was heard, parsed, stored and checked here.
import { v7 } from "uuid";
import { DEMO_PHOTOS } from "../../demo-data/photos.ts";
import { DAY_BOOK, DEMO_CUSTOMER, DEMO_NAME, DEMO_START } from "../../demo-data/scenario.ts";
import { stampEvent } from "../../extractors/bench/index.ts";
import type { Verdict } from "../../shared/rules/finding.ts";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";
import { logEvents } from "../builds/log.ts";
import type { Deps } from "../deps.ts";
import { demoClock } from "./clock.ts";
import { type DemoJob, doLine } from "./lines.ts";

export interface DemoProgress {
  readonly done: number;
  readonly total: number;
}

export interface DemoSummary {
  readonly build: string;
  readonly clips: number;
  /** Clips in which nothing was heard that is for the book. */
  readonly silent: number;
  readonly readings: number;
  readonly waiting: number;
  readonly questions: number;
  readonly photos: number;
  readonly findings: Readonly<Record<Verdict, number>>;
  readonly seconds: number;
}

/**
 * Make the demo build in the shop's book.
 * @param dir folder of the clips and pictures
 * @param onProgress told after each line of the day book
 */
export async function runDemo(deps: Deps, dir: string, onProgress: (progress: DemoProgress) => void): Promise<DemoSummary> {
  const started = performance.now();
  const clock = demoClock(DEMO_START);
  const build = v7();
  let seq = await deps.store.nextDeviceSeq("demo bench");
  const stamp = { build, device: "demo bench", by: "the machinist", now: clock.now, nextSeq: () => seq++ };
  const job: DemoJob = { deps, stamp, dir, photos: DEMO_PHOTOS };
  await logEvents(deps, [stampEvent(stamp, "build.opened", { name: DEMO_NAME, customer: DEMO_CUSTOMER, spec: DEMO_SPEC })]);

  const sums = { clips: 0, silent: 0, photos: 0, questions: 0 };
  for (const [index, line] of DAY_BOOK.entries()) {
    clock.pass(line.wait ?? 1);
    const result = await doLine(line, job);
    sums.clips += result.clips;
    sums.photos += result.photos;
    if (result.clips > 0 && result.events.length <= 1) sums.silent += 1;
    sums.questions += result.events.filter((event) => event.type === "question.asked").length;
    onProgress({ done: index + 1, total: DAY_BOOK.length });
  }

  return await deps.builds.read(build, ({ build: folded, findings }) => {
    const verdicts = { pass: 0, warn: 0, fail: 0, unknown: 0 };
    for (const finding of findings()) verdicts[finding.verdict] += 1;
    return {
      build,
      ...sums,
      readings: folded.readings.size,
      waiting: folded.waiting.size,
      findings: verdicts,
      seconds: Math.round((performance.now() - started) / 100) / 10,
    };
  });
}

/** The last step of the day book: a demo that never came to it was broken off and does not count. */
const LAST_STEP = DAY_BOOK.flatMap((line) => ("step" in line ? [line.step] : [])).at(-1);

/** The whole demo build that is in the book already, if one is. */
export async function findDemo(deps: Deps): Promise<string | undefined> {
  const { builds } = await deps.builds.readAll(({ build }) => build);
  return builds.find(({ name, steps }) => name === DEMO_NAME && LAST_STEP !== undefined && steps.has(LAST_STEP))?.id;
}
