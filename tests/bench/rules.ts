// What one more event costs the rules at 100, 1,000, 10,000 and 100,000 events: the fold alone, and the rules on top of it.
// And what it costs to say beforehand what an event would come to: on a draft of the build, beside doing so on a whole copy of it.
// Prints one JSON line a length. A flat column is the claim; it is measured here and asserted nowhere.
import { performance } from "node:perf_hooks";
import { apply, type Build, foldBuild } from "../../shared/build/build.ts";
import type { BenchEvent, EventData, EventType } from "../../shared/events/events.ts";
import type { Place } from "../../shared/places/places.ts";
import { AXES, DEPTHS, SIDES, VALVES } from "../../shared/places/places.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import type { QuantityId } from "../../shared/quantities/types.ts";
import { Evaluator, evaluate } from "../../shared/rules/index.ts";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";

const LENGTHS = [100, 1_000, 10_000, 100_000];
/** Events measured at each length, after it has been reached. */
const SAMPLE = 400;
/** Whole copies tried at each length: they take long. */
const COPIES = 5;
const BUILD = "01890000-0000-7000-8000-000000000000";

/** A small linear congruential generator, so that every run measures the same log. */
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const four = [1, 2, 3, 4];
const PLACES: readonly (readonly [QuantityId, readonly Place[], number, number])[] = [
  [
    "bore_diameter",
    four.flatMap((cylinder) => DEPTHS.flatMap((depth) => AXES.map((axis) => ({ cylinder, depth, axis })))),
    3.875,
    0.012,
  ],
  ["ring_end_gap", four.flatMap((cylinder) => DEMO_SPEC.engine.rings.map((ring) => ({ cylinder, ring }))), 0.009, 0.012],
  ["bearing_clearance", [...four.map((rod) => ({ rod })), ...[1, 2, 3].map((main) => ({ main }))], 0.001, 0.003],
  ["piston_skirt_diameter", four.map((cylinder) => ({ cylinder })), 3.9, 0.002],
  ["chamber_volume", four.map((cylinder) => ({ cylinder })), 221, 6],
  ["deck_protrusion", four.map((cylinder) => ({ cylinder })), 0.004, 0.03],
  ["valve_lash", four.flatMap((cylinder) => VALVES.map((valve) => ({ cylinder, valve }))), 0.008, 0.006],
  ["shim_thickness", four.flatMap((rod) => SIDES.map((side) => ({ rod, side }))), 0.008, 0.004],
  ["fastener_torque", four.flatMap((rod) => SIDES.map((nut) => ({ fastener: "rod" as const, rod, nut }))), 30, 15],
];

const pick = <T>(items: readonly T[], next: () => number): T => items[Math.floor(next() * items.length)] as T;

/** A log of readings, photos, notes, part changes and steps, drawn at random. */
function* log(next: () => number): Generator<BenchEvent> {
  let n = 0;
  const event = <T extends EventType>(type: T, data: EventData[T]): BenchEvent => {
    n += 1;
    const id = `01890000-0000-7000-8000-${String(n).padStart(12, "0")}`;
    return {
      id,
      build: BUILD,
      at: "2026-01-05T08:00:00.000Z",
      device: "vise",
      deviceSeq: n,
      by: "bench",
      type,
      data,
    } as unknown as BenchEvent;
  };
  yield event("build.opened", { name: "bench", spec: DEMO_SPEC });
  for (const step of ["bores", "rings", "deck", "valves", "final_torque"] as const) yield event("step.opened", { step });
  for (;;) {
    const dice = next();
    const [quantity, places, from, span] = pick(PLACES, next);
    const place = pick(places, next);
    if (dice < 0.9) {
      const value = Number((from + next() * span).toFixed(4));
      yield event("reading.taken", {
        reading: {
          quantity,
          place,
          value,
          unit: QUANTITIES[quantity].unit,
          digits: String(value),
          implied: [],
          do: "accept",
          span: [0, 1],
        },
      });
    } else if (dice < 0.94) {
      yield event("note.made", {
        note: { kind: "cotter", state: "fitted", text: "cotter in", place: { fastener: "rod", rod: pick(four, next) } },
      });
    } else if (dice < 0.98) {
      yield event("photo.taken", { photo: photo(next), place: { rod: pick(four, next) }, proof: "cotter", step: "final_torque" });
    } else {
      yield event("utterance.heard", { text: "and so on", by: "typed" });
    }
  }
}

function photo(next: () => number): EventData["photo.taken"]["photo"] {
  const hex = (length: number) => Array.from({ length }, () => Math.floor(next() * 16).toString(16)).join("");
  return {
    sha256: hex(64),
    bytes: 1000,
    type: "image/jpeg",
    width: 100,
    height: 80,
    orientation: 1,
    taken: { at: "2026-01-05T08:00:00Z", source: "server", zoneKnown: true },
    fingerprint: hex(16),
    focus: 100,
    highlights: 0,
    shadows: 0,
  };
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
const p95 = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length * 0.95)] ?? 0;
const micro = (ms: number): number => Number((ms * 1000).toFixed(1));

function take(events: Generator<BenchEvent>, count: number): BenchEvent[] {
  return Array.from({ length: count }, () => events.next().value as BenchEvent);
}

function timed(work: () => void): number {
  const started = performance.now();
  work();
  return performance.now() - started;
}

function measure(length: number): Record<string, number> {
  const events = log(random(7));
  const build: Build = foldBuild(take(events, length));
  const started = performance.now();
  const evaluator = new Evaluator(build);
  const whole = performance.now() - started;
  const folds: number[] = [];
  const rules: number[] = [];
  const checks: number[] = [];
  for (const event of take(events, SAMPLE)) {
    const before = performance.now();
    const touched = apply(build, event);
    const folded = performance.now();
    const checked = evaluator.checked;
    evaluator.update(event, touched);
    rules.push(performance.now() - folded);
    folds.push(folded - before);
    checks.push(evaluator.checked - checked);
  }
  // Processor time of as many events more: it does not count what other programs took of the machine meanwhile.
  const more = take(events, SAMPLE).map((event) => ({ event, touched: apply(build, event) }));
  const cpu = process.cpuUsage();
  for (const { event, touched } of more) evaluator.update(event, touched);
  const spent = process.cpuUsage(cpu);
  // What is said makes no photos, and only what is said is tried beforehand.
  const ahead = take(events, SAMPLE).filter(({ type }) => type !== "photo.taken");
  const drafts = ahead.map((event) =>
    timed(() => {
      const draft = evaluator.draft();
      draft.apply(event);
      draft.findings();
    }),
  );
  const copies = ahead.slice(0, COPIES).map((event) =>
    timed(() => {
      const copy = structuredClone(build);
      apply(copy, event);
      evaluate(copy);
    }),
  );
  return {
    events: length,
    rules_cpu_mean_us: Number(((spent.user + spent.system) / SAMPLE).toFixed(1)),
    rules_median_us: micro(median(rules)),
    rules_p95_us: micro(p95(rules)),
    subjects_checked_median: median(checks),
    subjects_checked_most: Math.max(...checks),
    fold_median_us: micro(median(folds)),
    fold_p95_us: micro(p95(folds)),
    whole_evaluation_ms: Number(whole.toFixed(1)),
    beforehand_on_draft_median_us: micro(median(drafts)),
    beforehand_on_draft_p95_us: micro(p95(drafts)),
    beforehand_on_copy_median_us: micro(median(copies)),
    findings: evaluator.findings().length,
  };
}

// The first run warms the compiler up and is thrown away.
measure(2_000);
for (const length of LENGTHS) process.stdout.write(`${JSON.stringify(measure(length))}\n`);
