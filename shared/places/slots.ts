// The slots of a place, one row each: what it may hold, what an engine has of it, how it is read and said. All else about places is
// derived from these rows, in their order: type, schema, key, label, lists, questions, expected readings, grammar.
import { z } from "zod";

export const RINGS = ["top", "second", "third", "oil"] as const;
export const DEPTHS = ["top", "middle", "bottom"] as const;
export const AXES = ["thrust", "axial"] as const;
export const VALVES = ["intake", "exhaust"] as const;
export const SIDES = ["a", "b"] as const;
export const ENDS = ["front", "rear"] as const;
export const FASTENERS = ["rod", "main", "head", "flywheel", "manifold"] as const;
/** Angular position around a journal: up and down the throw, or across it. */
export const ANGLES = ["vertical", "horizontal"] as const;
/** Springs of one valve, one within the other. */
export const SPRINGS = ["inner", "outer"] as const;
/** The banks of an engine whose sheet names none, seen from the flywheel end. */
export const BANKS = ["left", "right"] as const;

export type SlotValue = string | number;

/** What of a spec sheet tells which places an engine has. */
export interface Sheet {
  readonly engine: {
    readonly cylinders: number;
    readonly mains: number;
    readonly rings: readonly string[];
    readonly rodNuts: number;
    readonly mainNuts: number;
    readonly headNuts: number;
    readonly arrangement?: string | undefined;
    readonly banks?: readonly { readonly name: string }[] | undefined;
    readonly heads?: "one" | "bank" | "cylinder" | undefined;
  };
  readonly fasteners: Readonly<Partial<Record<string, { readonly stages?: readonly unknown[] | undefined }>>>;
}
type Where = { readonly fastener?: string | undefined };

interface Slot {
  readonly schema: z.ZodType<SlotValue>;
  /** Values of this engine in the order a list of them is read; none where no list runs along the slot. */
  readonly values?: (sheet: Sheet, where: Where) => readonly SlotValue[];
  /** Whether the values are the engine's own, so that no other can be said. */
  readonly own?: true;
  /** Whether work goes from one to the next of these, and leaves what `clears` behind. */
  readonly moves?: true;
  /** Whether another cylinder or bearing does not keep it. */
  readonly cleared?: true;
  /** How a value is read; the value alone where nothing is said. */
  readonly label?: (value: string) => string;
  /** Said before the value; the value alone where nothing is said. */
  readonly noun?: string;
  /** Words that are a value of it by themselves; those that may be of several slots stand in the parser's vocabulary. */
  readonly words?: Readonly<Record<string, SlotValue>>;
}

const count = z.int().min(1).max(32);
const upTo = (n: number): readonly number[] => Array.from({ length: n }, (_, k) => k + 1);
const headed = (noun: string) => ({
  noun,
  label: (value: string) => `${noun} ${value.length === 1 ? value.toUpperCase() : value}`,
});

const banksOf = ({ engine: { banks, arrangement } }: Sheet): readonly string[] =>
  banks?.map(({ name }) => name) ?? (arrangement === "vee" || arrangement === "opposed" ? BANKS : []);

const headsOf = (sheet: Sheet): number =>
  ({ one: 1, bank: banksOf(sheet).length, cylinder: sheet.engine.cylinders })[sheet.engine.heads ?? "one"];

const NUTS: Readonly<Record<string, "rodNuts" | "mainNuts" | "headNuts">> = {
  rod: "rodNuts",
  main: "mainNuts",
  head: "headNuts",
};

/** Two nuts are told apart by their sides, more by their number. */
function nutsOf({ engine }: Sheet, { fastener = "rod" }: Where): readonly SlotValue[] {
  const key = NUTS[fastener];
  if (key === undefined) return SIDES;
  return engine[key] === 2 ? SIDES : upTo(engine[key]);
}

export const SLOTS = {
  fastener: { schema: z.enum(FASTENERS) },
  part: { schema: z.string().max(40) },
  bank: {
    schema: z.string().regex(/^[a-z][a-z0-9_ ]{0,19}$/),
    values: banksOf,
    own: true,
    label: (value: string) => `${value} bank`,
    words: {
      left: "left",
      "left bank": "left",
      "left hand": "left",
      "left hand bank": "left",
      right: "right",
      "right bank": "right",
      "right hand": "right",
      "right hand bank": "right",
    },
  },
  head: { schema: count, values: (sheet: Sheet) => upTo(headsOf(sheet)), ...headed("head") },
  cylinder: {
    schema: count,
    values: ({ engine }: Sheet) => upTo(engine.cylinders),
    moves: true,
    label: (value: string) => `cylinder ${value}`,
  },
  main: { schema: count, values: ({ engine }: Sheet) => upTo(engine.mains), moves: true, ...headed("main") },
  /** Crankpins and big ends: a rod's number is its cylinder's. */
  rod: { schema: count, values: ({ engine }: Sheet) => upTo(engine.cylinders), moves: true, ...headed("rod") },
  ring: {
    schema: z.enum(RINGS),
    values: ({ engine }: Sheet) => engine.rings,
    own: true,
    label: (value: string) => `${value} ring`,
  },
  valve: { schema: z.enum(VALVES), values: () => VALVES },
  spring: {
    schema: z.enum(SPRINGS),
    values: () => SPRINGS,
    cleared: true,
    label: (value: string) => `${value} spring`,
    words: { inner: "inner", "inner spring": "inner", outer: "outer", "outer spring": "outer" },
  },
  depth: { schema: z.enum(DEPTHS), values: () => DEPTHS },
  axis: { schema: z.enum(AXES), values: () => AXES },
  end: { schema: z.enum(ENDS), values: () => ENDS, cleared: true },
  angle: { schema: z.enum(ANGLES), values: () => ANGLES, cleared: true },
  /** `a` is the cam side, `b` the off side. */
  side: { schema: z.enum(SIDES), values: () => SIDES, cleared: true, ...headed("side") },
  nut: { schema: z.union([z.enum(SIDES), z.int().min(1).max(99)]), values: nutsOf, cleared: true, ...headed("nut") },
  stage: {
    schema: z.union([z.int().min(1).max(9), z.string().max(40)]),
    values: ({ fasteners }: Sheet, { fastener }: Where) => upTo(fasteners[fastener ?? ""]?.stages?.length ?? 0),
    cleared: true,
    noun: "stage",
    label: (value: string) => `stage ${value}`,
  },
} as const satisfies Readonly<Record<string, Slot>>;

export type PlaceKey = keyof typeof SLOTS;

/** The row of a slot, whichever it is. */
export const slotRow = (slot: PlaceKey): Slot => SLOTS[slot];
