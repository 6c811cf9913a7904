// Logs of older versions hold events that make no sense. Whatever they are, one of them never keeps the build from being folded
// and checked, it stands under its name in what was set aside, and the build is what it would be without it.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { foldBuild, openBuild } from "../../../shared/build/index.ts";
import { type BenchEvent, eventSchema } from "../../../shared/events/events.ts";
import { faultOf } from "../../../shared/events/meaning.ts";
import { PLACE_KEYS, placeSchema } from "../../../shared/places/places.ts";
import { NOMINAL_KEYS, QUANTITY_IDS } from "../../../shared/quantities/types.ts";
import { findingSchema } from "../../../shared/rules/finding.ts";
import { Evaluator, evaluate } from "../../../shared/rules/index.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { LIMIT_UNITS, type Spec } from "../../../shared/spec/spec.ts";
import { STEP_IDS } from "../../../shared/steps/steps.ts";
import { UNIT_IDS } from "../../../shared/units/units.ts";
import { BenchLog, reading } from "../rules/bench-log.ts";
import { MOVES } from "../rules/random-moves.ts";

type Add = (log: BenchLog) => unknown;

const decimal = fc.oneof(
  fc.constantFrom("0", "-0", "0.0000", "1", "-1", ".5", "3.8750", "0.0000000001", "999999999", "9".repeat(400)),
  fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
  fc.string({ maxLength: 4 }),
);
const place = fc
  .tuple(
    fc.subarray([...PLACE_KEYS], { maxLength: 3 }),
    fc.constantFrom<unknown>(1, 2, 32, "a", "top", "rod", "thrust", "intake", "front"),
  )
  .map(([keys, value]) => Object.fromEntries(keys.map((key) => [key, value])))
  .map((slots) => placeSchema.safeParse(slots).data ?? { cylinder: 1 });
const unit = fc.constantFrom(...UNIT_IDS);
const figure = fc
  .tuple(
    fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }), fc.constantFrom(0, -0, 3.875, 1e308, 5e-324)),
    unit,
    decimal,
    fc.boolean(),
  )
  .map(([value, u, digits, same]) => ({ value, unit: u, digits: same ? String(value) : digits }));
const read = fc
  .tuple(fc.constantFrom(...QUANTITY_IDS), place, figure, fc.option(figure, { nil: undefined }))
  .map(([quantity, at, said, over]) => reading(quantity, at, said.value, { ...said, ...(over === undefined ? {} : { over }) }));

const sheet: fc.Arbitrary<Spec> = fc
  .tuple(
    fc.nat(DEMO_SPEC.limits.length - 1),
    fc.constantFrom(...LIMIT_UNITS),
    decimal,
    fc.constantFrom(...NOMINAL_KEYS),
    fc.nat(5),
    place,
  )
  .map(([at, limitUnit, text, nominal, what, where]) => {
    const limits = DEMO_SPEC.limits.map((limit, i) => {
      if (i !== at) return limit;
      if (what === 0) return { ...limit, unit: limitUnit };
      if (what === 1) return { ...limit, accept: { low: text, high: text } };
      return what === 2 ? { ...limit, where, perInchOf: nominal } : limit;
    });
    const nominals = what === 3 ? { ...DEMO_SPEC.nominals, [nominal]: [text] } : DEMO_SPEC.nominals;
    const rod = DEMO_SPEC.fasteners.rod;
    const fasteners =
      what === 4 && rod !== undefined ? { rod: { ...rod, k: text, majorDiameter: text, low: text } } : DEMO_SPEC.fasteners;
    const figures =
      what === 5
        ? Object.fromEntries(Object.entries(DEMO_SPEC.figures).map(([k, f]) => [k, { ...f, value: text }]))
        : DEMO_SPEC.figures;
    return { ...DEMO_SPEC, limits, nominals, fasteners, figures };
  });

const ODD: fc.Arbitrary<Add> = fc.oneof(
  {
    weight: 6,
    arbitrary: read.map(
      (said): Add =>
        (log) =>
          log.add("reading.taken", { reading: said }),
    ),
  },
  {
    weight: 2,
    arbitrary: read.map(
      (said): Add =>
        (log) =>
          log.add("reading.corrected", { target: log.events.at(-1)?.id ?? "", reading: said }),
    ),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(decimal, decimal, fc.constantFrom("in", "mm", "ft_lbf", "g", "degC"), fc.constantFrom(...QUANTITY_IDS))
      .map(
        ([resolution, uncertainty, u, quantity]): Add =>
          (log) => {
            const kept = {
              instrument: `gauge ${u}`,
              kind: "gauge",
              resolution,
              uncertainty,
              unit: u as "in",
              quantities: [quantity],
            };
            log.add("instrument.kept", kept);
          },
      ),
  },
  {
    weight: 2,
    arbitrary: fc.tuple(decimal, fc.constantFrom("in", "mm", "ft_lbf", "g", "degC"), fc.constantFrom("in", "g")).map(
      ([deviation, u, of]): Add =>
        (log) =>
          log.add("instrument.zeroed", { instrument: `gauge ${of}`, deviation, unit: u as "in" }),
    ),
  },
  {
    weight: 2,
    arbitrary: sheet.map(
      (spec): Add =>
        (log) =>
          log.add("spec.revised", { spec }),
    ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(...STEP_IDS).map(
      (step): Add =>
        (log) =>
          log.add("step.opened", { step }),
    ),
  },
  {
    weight: 4,
    arbitrary: MOVES.map(
      (move): Add =>
        (log) =>
          move(
            log,
            log.events.slice(1).map(({ id }) => id),
          ),
    ),
  },
);

/** Of other shapes than this version knows. */
const SHAPELESS = [
  { type: "reading.guessed", data: { reading: 3 } },
  { type: "reading.taken", data: {} },
  { type: "reading.taken", data: { reading: { quantity: "bore_depth", unit: "in", value: 1, digits: "1" } } },
  { type: "toString", data: {} },
  { type: "reading.taken" },
  { type: "spec.revised", data: { spec: { limits: 7 } } },
] as unknown as readonly Pick<BenchEvent, "type" | "data">[];

describe("a build folded from any log", () => {
  it("always comes to findings that can be answered, whatever was let in", () => {
    let odd = 0;
    fc.assert(
      fc.property(sheet, fc.array(ODD, { maxLength: 25 }), (first, adds) => {
        const log = new BenchLog(first);
        for (const add of adds) add(log);
        const events = log.events.filter((event) => eventSchema.safeParse(event).success);
        if (events[0]?.type !== "build.opened") return;
        const following = new Evaluator(openBuild(events[0]));
        for (const event of events.slice(1)) following.apply(event);
        odd += following.build.setAside.length;
        expect(findingSchema.array().safeParse(following.findings()).error?.issues).toBeUndefined();
        expect(following.findings().filter(({ why }) => why.includes("a fault of the rule itself"))).toEqual([]);
        expect(following.findings()).toEqual(evaluate(foldBuild(events)));
        const named = new Set([...following.build.setAside].map(({ id }) => id));
        expect(events.filter((event) => faultOf(event) !== undefined && !named.has(event.id))).toEqual([]);
      }),
      { numRuns: 400 },
    );
    expect(odd).toBeGreaterThan(100);
  });

  it("is the one without what was set aside", () => {
    const log = new BenchLog();
    log.read("bore_diameter", { cylinder: 1 }, 3.875);
    const sound = [...log.events];
    log.read("bore_diameter", { cylinder: 1 }, 3.9, { unit: "g" });
    SHAPELESS.forEach((shape, i) => {
      const event = { ...(log.events[0] as BenchEvent), id: `shapeless ${i}`, ...shape } as BenchEvent;
      log.events.push(event);
    });
    const build = foldBuild(log.events);
    expect([...build.setAside].map(({ order, code }) => [order, code])).toEqual([
      [3, "wrong_unit"],
      ...SHAPELESS.map((_, i) => [4 + i, "unreadable"]),
    ]);
    expect(evaluate(build)).toEqual(evaluate(foldBuild(sound)));
    expect([...build.readings.keys()]).toEqual([...foldBuild(sound).readings.keys()]);
  });

  it("opens without the rows of its sheet that make no sense, and names them", () => {
    const limits = DEMO_SPEC.limits.map((limit, i) => (i === 2 ? { ...limit, unit: "g" as const } : limit));
    const build = openBuild(new BenchLog({ ...DEMO_SPEC, limits }).events[0] as BenchEvent);
    expect(build.spec.limits).toEqual(DEMO_SPEC.limits.filter((_, i) => i !== 2));
    expect([...build.setAside].map(({ order, code }) => [order, code])).toEqual([[1, "no_sense"]]);
    expect([...build.setAside][0]?.say).toMatch(/^Expected a unit of length for .+, got "g"$/);
  });
});
