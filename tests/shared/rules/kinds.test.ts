// Every kind of engine against every step, proof, reading, caution and remedy: none is asked for or advised where the kind has not got
// what it is about. What a kind has is common practice, no source; that shells are not shimmed or scraped: TM 10-3930-653-14&P, p. 78.
import { afterAll, describe, expect, it } from "vitest";
import { parse } from "../../../extractors/speech/index.ts";
import { PLACE_KEYS, type Place } from "../../../shared/places/places.ts";
import { RuleContext } from "../../../shared/rules/context.ts";
import { FIGURES } from "../../../shared/rules/figures/figures.ts";
import { REMEDIES, remedyFor } from "../../../shared/rules/remedies/remedies.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { BEARING_KINDS, type BearingKind, bearingAt, type Engine, type Trait, traitsOf } from "../../../shared/spec/engine.ts";
import { type KindChoice, kindSpec } from "../../../shared/spec/kinds.ts";
import { nonsenseIn } from "../../../shared/spec/sense.ts";
import { CAUTIONS, cautionsFor } from "../../../shared/steps/cautions.ts";
import { planOf } from "../../../shared/steps/plan.ts";
import { STEPS } from "../../../shared/steps/steps.ts";
import { BenchLog } from "./bench-log.ts";

const CHOICES: readonly KindChoice[] = (["single", "twin", "four", "six", "v8"] as const).flatMap((kind) =>
  (["poured", "shell", "roller"] as const).flatMap((bearings) =>
    (["splash", "pressure"] as const).flatMap((lubrication) =>
      (["side", "overhead", "overhead-cam", "ports"] as const).map((valves) => ({ kind, bearings, lubrication, valves })),
    ),
  ),
);
const nameOf = ({ kind, bearings, lubrication, valves }: KindChoice) => `${kind} ${bearings} ${lubrication} ${valves}`;
const SHEETS = CHOICES.map((choice) => [nameOf(choice), kindSpec(choice)] as const);

/** Words that only speak of engines with a trait; what says that something is not done does not count. */
const WORDS: readonly (readonly [RegExp, Trait | readonly BearingKind[]])[] = [
  [/shims? (from|to) each side|of shim|thrust shim|shims take up/i, ["poured"]],
  [/babbitt|scrape the|blued/i, ["poured"]],
  [/pair of shells|shells for it|behind a shell|undersize of shell/i, ["shell"]],
  [/flanged shells|thrust washers/i, ["shell", "bush"]],
  [/fit rollers|races?\b|with its rollers/i, ["roller", "ball"]],
  [/dipper|trough/i, "dippers"],
  [/lash shim/i, "lash_by_shim"],
  [/tappet|follower|lobe|\bcam\b|\bguide\b|\bseat\b|valves/i, "valves"],
  [/slack one cap/i, "rod_caps"],
  [/main caps in/i, "main_caps"],
  [/throttle|plugs out/i, "spark"],
];

const unsaid = (text: string): string => text.replace(/a shell is never shimmed, scraped or filed|takes no shim/g, "");

/** What of the words is wrong for an engine and the bearing spoken of. */
function wrongFor(text: string, engine: Engine, at: BearingKind): string[] {
  return WORDS.flatMap(([words, needs]) => {
    const said = words.exec(unsaid(text))?.[0];
    if (said === undefined) return [];
    const fits = typeof needs === "string" ? traitsOf(engine).has(needs) : needs.includes(at);
    return fits ? [] : [said];
  });
}

const PLACES: readonly Place[] = [{ main: 2 }, { rod: 1 }, { cylinder: 1, rod: 1, valve: "intake", ring: "top" }];

/** A log in which every remedy has the figures that it works with. */
function fullLog(engine: Engine): BenchLog {
  const log = new BenchLog({ ...DEMO_SPEC, engine: { ...engine, cylinders: Math.max(engine.cylinders, 1) } });
  for (const depth of ["top", "bottom"] as const)
    log.read("bore_diameter", { cylinder: 1, depth, axis: "thrust" }, 3.885, { condition: "as_found" });
  log.read("crankpin_diameter", { rod: 1 }, 1.87);
  log.read("main_journal_diameter", { main: 2 }, 1.995);
  log.read("deck_protrusion", { cylinder: 1 }, 0.012);
  log.read("gasket_thickness", {}, 0.058);
  log.read("chamber_volume", { cylinder: 1 }, 220);
  log.read("compression_pressure", { cylinder: 1 }, 40);
  log.read("pin_diameter", { cylinder: 1 }, 0.875);
  log.read("mass", { cylinder: 1, part: "piston" }, 700);
  return log;
}

const engines: readonly Engine[] = [
  // By what remedies can ask for, kinds differ in their number of heads and in what a single has not got.
  ...SHEETS.filter((_, i) => CHOICES[i]?.kind === "twin" || CHOICES[i]?.kind === "four").map(([, { engine }]) => engine),
  ...BEARING_KINDS.map((bearings): Engine => ({ ...DEMO_SPEC.engine, bearings })),
  ...(["screws", "shims", "hydraulic"] as const).map((lash): Engine => ({ ...DEMO_SPEC.engine, layout: "overhead_cam", lash })),
  { ...DEMO_SPEC.engine, ignition: "compression" },
  { ...DEMO_SPEC.engine, cooling: "air", heads: "cylinder", mainNuts: 0, rodNuts: 0 },
];

const VALUES = [
  [0.0005, undefined],
  [0.2, undefined],
  [0.0005, "final"],
  [0.011, "final"],
] as const;

/** Everything advised about a figure on an engine, and what of it is wrong there. */
function advised(id: string, engine: Engine): { said: number; wrong: string[] } {
  const figure = FIGURES.get(id);
  if (figure === undefined) throw new Error(`Expected a figure for the remedy ${id}, got none`);
  const context = new RuleContext(fullLog(engine).fold());
  const accept = figure.unit === "ratio" ? { low: 4, high: 5 } : { low: 0.001, high: 0.01 };
  const told = PLACES.flatMap((place) =>
    VALUES.flatMap(([value, condition]) => {
      const text = remedyFor({ figure, place, value, accept, condition, context });
      return text === undefined ? [] : [{ text, at: bearingAt(engine, id === "crank_end_float" ? { main: 1 } : place) }];
    }),
  );
  return {
    said: told.length,
    wrong: told.flatMap(({ text, at }) => wrongFor(text, engine, at).map((words) => `${words}: ${text}`)),
  };
}

describe("a remedy and a kind", () => {
  let said = 0;
  it.each(Object.keys(REMEDIES))("%s is advised to nobody whose engine has not got it", (id) => {
    const all = engines.map((engine) => advised(id, engine));
    said += all.reduce((sum, one) => sum + one.said, 0);
    expect([...new Set(all.flatMap(({ wrong }) => wrong))].slice(0, 5)).toEqual([]);
  });
  it("and there is something advised at all", () => expect(said).toBeGreaterThan(1000));
});

describe.each(SHEETS)("a sheet for %s", (_name, sheet) => {
  const traits = traitsOf(sheet.engine);
  const steps = planOf(sheet).map(({ id }) => id);

  it("is sound, and its plan has no step that the engine lacks and lacks none that it has", () => {
    expect(nonsenseIn(sheet)).toEqual([]);
    for (const step of STEPS)
      expect([step.id, steps.includes(step.id)]).toEqual([step.id, step.needs.every((need) => traits.has(need))]);
  });

  it("asks for no dipper, shim, cap mark, valve or lash where there is none", () => {
    const asked = [
      ...sheet.expected.map(({ quantity, step }) => `${quantity} ${step}`),
      ...sheet.proofs.map(({ id, title }) => `${id} ${title}`),
      ...sheet.limits.map(({ on }) => on),
    ].join("\n");
    const absent = (words: RegExp, trait: boolean) =>
      expect([words.source, words.test(asked)]).toEqual([words.source, trait && words.test(asked)]);
    absent(/dipper|trough/i, traits.has("dippers"));
    absent(/shim_|blue_print/, traits.has("poured"));
    absent(/cap_marks|\bcap\b/, traits.has("rod_caps"));
    absent(/cotter/, traits.has("cotters"));
    absent(/valve|lobe|cam_|seat/, traits.has("valves"));
    absent(/valve_lash/, traits.has("lash"));
    absent(/oil_pump|oil_pressure/, traits.has("oil_pump"));
    absent(/main_clearance/, !["roller", "ball"].includes(bearingAt(sheet.engine, { main: 1 })));
    if (traits.has("dippers")) expect(asked).toMatch(/dipper/);
    if (traits.has("rod_caps")) expect(asked).toMatch(/cap_marks/);
  });

  it("warns of nothing that the engine has not got", () => {
    const text = steps.flatMap((step) => cautionsFor(step, sheet.engine)).join("\n");
    if (!traits.has("poured")) expect(text).not.toMatch(/Molten babbitt|Lead in babbitt/);
    if (!traits.has("water")) expect(text).not.toMatch(/Jacket test/);
    if (!traits.has("magneto")) expect(text).not.toMatch(/magneto/);
  });
});

describe("a figure that is said of what the engine has not got", () => {
  const of = (choice: KindChoice, words: string) =>
    parse(words, {}, kindSpec(choice)).readings.map(({ quantity, do: does, because }) => [quantity, does, because]);
  const six: KindChoice = { kind: "six", bearings: "shell", lubrication: "pressure", valves: "side" };
  it.each([
    ["quarter inch dip, rod one", six, { ...six, lubrication: "splash" }, "dipper_depth"],
    ["intake one lash, ten thou", { ...six, valves: "ports" }, six, "valve_lash"],
    ["exhaust two guide, three thou", { ...six, valves: "ports" }, six, "valve_guide_clearance"],
  ] as const)("%s waits for a yes", (words, lacks, has, quantity) => {
    expect(of(lacks, words)).toEqual([[quantity, "confirm", "not_of_engine"]]);
    expect(of(has, words)[0]?.slice(0, 1)).toEqual([quantity]);
    expect(of(has, words)[0]?.[2]).not.toBe("not_of_engine");
  });
});

describe("the plan's order", () => {
  it("every step comes after what it rests on and before what covers it", () => {
    for (const [name, sheet] of SHEETS) {
      const plan = planOf(sheet);
      const at = (id: string) => plan.findIndex((step) => step.id === id);
      for (const step of plan) {
        for (const before of step.after)
          expect([name, step.id, before, at(before) < at(step.id)]).toEqual([name, step.id, before, true]);
        for (const hidden of step.hides)
          expect([name, step.id, hidden, at(hidden) < at(step.id)]).toEqual([name, step.id, hidden, true]);
      }
    }
  });
  it("the cam comes before what covers it", () => {
    const plan = planOf(kindSpec({ kind: "six", bearings: "shell", lubrication: "pressure", valves: "side" }));
    const covering = plan.filter(({ hides }) => hides.includes("cam")).map(({ id }) => id);
    expect(covering).toEqual(["valve_timing"]);
    expect(plan.find(({ id }) => id === "valve_timing")?.after).toContain("cam");
    expect(plan.find(({ id }) => id === "deck")?.after).toContain("cam");
  });
  it("uses only slots there are", () => {
    for (const [, { expected }] of SHEETS)
      for (const { each } of expected) for (const slot of each) expect(PLACE_KEYS).toContain(slot);
  });
});

afterAll(() => {
  const shown = CHOICES.filter(
    ({ kind, valves }) =>
      (kind === "six" && valves === "side") ||
      (kind === "twin" && valves === "overhead") ||
      (valves === "ports" && kind === "single"),
  );
  const sheets = shown.map((choice) => kindSpec(choice));
  const lines = [["", ...shown.map(nameOf)].join(" | ")];
  const row = (what: string, has: (sheet: (typeof sheets)[number]) => boolean) =>
    lines.push([what, ...sheets.map((sheet) => (has(sheet) ? "yes" : "-"))].join(" | "));
  for (const { id } of STEPS) row(`step ${id}`, (sheet) => planOf(sheet).some((step) => step.id === id));
  for (const id of new Set(sheets.flatMap(({ proofs }) => proofs.map((proof) => proof.id))))
    row(`proof ${id}`, ({ proofs }) => proofs.some((proof) => proof.id === id));
  for (const caution of CAUTIONS.filter(({ needs }) => needs !== undefined))
    row(
      `caution ${caution.text.slice(0, 32)}`,
      ({ engine }) => caution.needs?.every((need) => traitsOf(engine).has(need)) ?? true,
    );
  for (const [id, { low, high }] of Object.entries(REMEDIES)) {
    const choices = [low, high].flatMap((advice) => (advice === undefined || typeof advice === "function" ? [] : advice));
    if (choices.length > 0)
      row(`remedy ${id}`, ({ engine }) =>
        choices.some(
          ({ at, needs = [] }) =>
            needs.every((need) => traitsOf(engine).has(need)) &&
            (at === undefined || at.includes(bearingAt(engine, /^main|crank/.test(id) ? { main: 1 } : {}))),
        ),
      );
  }
  process.stdout.write(`${lines.join("\n")}\n`);
});
