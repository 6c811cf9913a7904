// What an engine is: how its cylinders lie, what its parts run in, how it is oiled, breathes, is cooled and lit, and what holds it
// together. From this follow its places, its steps, what is asked of it, and what may be said about it.
import { z } from "zod";
import { RINGS } from "../places/places.ts";

/** What a bearing is: it decides what may be done to it. Only poured metal is shimmed, scraped or filed. */
export const BEARING_KINDS = ["poured", "shell", "roller", "ball", "bush"] as const;
export type BearingKind = (typeof BEARING_KINDS)[number];
const bearingKind = z.enum(BEARING_KINDS);

const cylinder = z.int().min(1).max(16);

/** Fields that older sheets lack are optional, and what is not said of an engine is taken to be possible. */
export const engineSchema = z.strictObject({
  /** Where the valves are; a two-stroke has ports. */
  layout: z.enum(["side_valve", "inlet_over_exhaust", "overhead_valve", "overhead_cam", "two_stroke"]),
  arrangement: z.enum(["in_line", "vee", "opposed", "single"]).optional(),
  cylinders: cylinder,
  /** The banks of a vee or an opposed engine with the sheet's own names and their cylinders' numbers. */
  banks: z
    .array(z.strictObject({ name: z.string().regex(/^[a-z][a-z0-9_ ]{0,19}$/), cylinders: z.array(cylinder).min(1) }))
    .max(4)
    .optional(),
  /** Which rods each crankpin carries, front first; one each where nothing is said. A rod's number is its cylinder's. */
  crankpins: z.array(z.array(cylinder).min(1)).optional(),
  heads: z.enum(["one", "bank", "cylinder"]).optional(),
  mains: z.int().min(1).max(17),
  rings: z.array(z.enum(RINGS)).min(1),
  firingOrder: z.array(z.int().min(1)),
  numberedFrom: z.enum(["front", "rear"]),
  /** One kind for all, or by place: what mains and rods run in, and cam and small ends where that is known. */
  bearings: z.union([
    bearingKind,
    z.strictObject({ main: bearingKind, rod: bearingKind, cam: bearingKind.optional(), pin: bearingKind.optional() }),
  ]),
  /** Where 0 of the ring gaps' clock stands, seen from above, clockwise: over the pin's front end, or on a thrust face. */
  ringClock: z.enum(["front", "thrust"]).optional(),
  /** What holds the piston pin; floating where nothing is said. Where the rod clamps it, it turns in the piston. */
  pin: z.enum(["floating", "rod", "piston"]).optional(),
  oiling: z.enum(["splash", "pressure", "splash_and_pressure", "total_loss"]),
  /** Valves of one cylinder; one of each where nothing is said. */
  valves: z.strictObject({ intake: z.int().min(1).max(3), exhaust: z.int().min(1).max(3) }).optional(),
  /** What sets the lash. */
  lash: z.enum(["screws", "shims", "hydraulic"]).optional(),
  cooling: z.enum(["water", "air"]).optional(),
  ignition: z.enum(["magneto", "coil", "compression"]).optional(),
  /** What locks the nuts of rods and mains. */
  locking: z.enum(["cotter", "wire", "tab", "none"]).optional(),
  /** 0 where the big ends have no caps, on a built-up crank. */
  rodNuts: z.int().min(0).max(4),
  /** Of one main cap; 0 where the case is split or the bearings are housed. */
  mainNuts: z.int().min(0).max(6),
  /** Of one head. */
  headNuts: z.int().min(0).max(60),
});
export type Engine = z.infer<typeof engineSchema>;

/** The kind of a bearing by its place: a main's, else the rods'. */
export function bearingAt({ bearings }: Pick<Engine, "bearings">, place: { readonly main?: number | undefined }): BearingKind {
  return typeof bearings === "string" ? bearings : place.main === undefined ? bearings.rod : bearings.main;
}

/** Kinds whose rollers or balls are fitted whole: nothing is measured or worked as of a plain bearing. */
export const ROLLING = ["roller", "ball"] as const satisfies readonly BearingKind[];

/** Whether the bearing of a place is a plain one. */
export const isPlainAt = (engine: Pick<Engine, "bearings">, place: { readonly main?: number | undefined }): boolean =>
  !(ROLLING as readonly BearingKind[]).includes(bearingAt(engine, place));

/** The rods of each crankpin, front first. */
export const crankpinsOf = ({ crankpins, cylinders }: Pick<Engine, "crankpins" | "cylinders">): readonly (readonly number[])[] =>
  crankpins ?? Array.from({ length: cylinders }, (_, i) => [i + 1]);

/** What a table may ask of an engine before a row of it speaks. */
export const TRAITS = [
  "poured",
  "shell",
  "roller",
  "rod_caps",
  "main_caps",
  "built_up_crank",
  "cotters",
  "wires",
  "tabs",
  "dippers",
  "oil_pump",
  "valves",
  "valves_in_head",
  "cam_in_block",
  "cam_in_head",
  "lash_by_screw",
  "lash_by_shim",
  "lash",
  "ports",
  "water",
  "air",
  "barrels",
  "magneto",
  "battery",
  "spark",
  "injection",
  "several",
] as const;
export type Trait = (typeof TRAITS)[number];

const has = (engine: Engine, ...kinds: readonly BearingKind[]): boolean =>
  kinds.includes(bearingAt(engine, {})) || kinds.includes(bearingAt(engine, { main: 1 }));
/** What is not said of an engine may be so. */
const maybe = <T>(field: T | undefined, ...values: readonly T[]): boolean => field === undefined || values.includes(field);

const HELD: Readonly<Record<Trait, (engine: Engine) => boolean>> = {
  poured: (engine) => has(engine, "poured"),
  shell: (engine) => has(engine, "shell"),
  roller: (engine) => has(engine, ...ROLLING),
  rod_caps: ({ rodNuts }) => rodNuts > 0,
  main_caps: ({ mainNuts }) => mainNuts > 0,
  built_up_crank: ({ rodNuts }) => rodNuts === 0,
  cotters: ({ locking, rodNuts, mainNuts }) => maybe(locking, "cotter") && rodNuts + mainNuts > 0,
  wires: ({ locking }) => locking === "wire",
  tabs: ({ locking }) => locking === "tab",
  // A dipper sits on a big end's cap.
  dippers: ({ oiling, rodNuts }) => oiling.startsWith("splash") && rodNuts > 0,
  oil_pump: ({ oiling }) => oiling !== "splash",
  valves: ({ layout }) => layout !== "two_stroke",
  valves_in_head: ({ layout }) => layout !== "two_stroke" && layout !== "side_valve",
  cam_in_block: ({ layout }) => layout !== "two_stroke" && layout !== "overhead_cam",
  cam_in_head: ({ layout }) => layout === "overhead_cam",
  lash_by_screw: ({ layout, lash }) => layout !== "two_stroke" && maybe(lash, "screws"),
  lash_by_shim: ({ layout, lash }) => layout !== "two_stroke" && lash === "shims",
  lash: ({ layout, lash }) => layout !== "two_stroke" && lash !== "hydraulic",
  ports: ({ layout }) => layout === "two_stroke",
  water: ({ cooling }) => maybe(cooling, "water"),
  air: ({ cooling }) => cooling === "air",
  barrels: ({ cooling, heads }) => cooling === "air" && heads === "cylinder",
  magneto: ({ ignition }) => maybe(ignition, "magneto"),
  battery: ({ ignition }) => maybe(ignition, "coil"),
  spark: ({ ignition }) => ignition !== "compression",
  injection: ({ ignition }) => ignition === "compression",
  several: ({ cylinders }) => cylinders > 1,
};

const KNOWN = new WeakMap<Engine, ReadonlySet<Trait>>();

/** All traits of an engine. */
export function traitsOf(engine: Engine): ReadonlySet<Trait> {
  const known = KNOWN.get(engine);
  if (known !== undefined) return known;
  const traits = new Set(TRAITS.filter((trait) => HELD[trait](engine)));
  KNOWN.set(engine, traits);
  return traits;
}

/** Whether an engine has all that a row needs. */
export const suits = (engine: Engine, needs: readonly Trait[] = []): boolean =>
  needs.every((trait) => traitsOf(engine).has(trait));
