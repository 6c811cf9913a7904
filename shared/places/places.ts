// Where on the engine something was measured: a small record of slots, its schema, its stable key and its spoken form.
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

const count = z.int().min(1).max(32);

/** A place; every slot is optional, and which of them a reading needs is the quantity's to say. */
export const placeSchema = z.strictObject({
  cylinder: count.optional(),
  main: count.optional(),
  /** Crankpins and big ends: a rod's number is its cylinder's. */
  rod: count.optional(),
  ring: z.enum(RINGS).optional(),
  depth: z.enum(DEPTHS).optional(),
  axis: z.enum(AXES).optional(),
  valve: z.enum(VALVES).optional(),
  /** `a` is the cam side, `b` the off side. */
  side: z.enum(SIDES).optional(),
  end: z.enum(ENDS).optional(),
  angle: z.enum(ANGLES).optional(),
  fastener: z.enum(FASTENERS).optional(),
  nut: z.union([z.enum(SIDES), z.int().min(1).max(99)]).optional(),
  stage: z.union([z.int().min(1).max(9), z.string().max(40)]).optional(),
  part: z.string().max(40).optional(),
});
export type Place = z.infer<typeof placeSchema>;
export type PlaceKey = keyof z.infer<typeof placeSchema>;

/** Slot order for keys, labels and speech. */
export const PLACE_KEYS = [
  "fastener",
  "part",
  "cylinder",
  "main",
  "rod",
  "ring",
  "valve",
  "depth",
  "axis",
  "end",
  "angle",
  "side",
  "nut",
  "stage",
] as const satisfies readonly PlaceKey[];

/** A stable text key, equal for equal places whatever the order of their slots: `cylinder=2;ring=top`. */
export function placeKey(place: Place): string {
  let key = "";
  for (const slot of PLACE_KEYS) {
    const value = place[slot];
    if (value !== undefined) key += `${key ? ";" : ""}${slot}=${value}`;
  }
  return key;
}

/** Whether every slot of `pattern` stands in `place` with the same value. */
export function placeMatches(pattern: Place, place: Place): boolean {
  return PLACE_KEYS.every((slot) => pattern[slot] === undefined || pattern[slot] === place[slot]);
}

const SLOT_WORDS: Partial<Record<PlaceKey, string>> = {
  cylinder: "cylinder",
  main: "main",
  rod: "rod",
  nut: "nut",
  side: "side",
  stage: "stage",
  ring: "ring",
};

/** A place as a person reads it: `cylinder 2, top ring`. Empty for the engine as a whole. */
export function placeLabel(place: Place): string {
  const parts: string[] = [];
  for (const slot of PLACE_KEYS) {
    const value = place[slot];
    if (value === undefined) continue;
    // A rod nut already says "rod" with its number, so the fastener's group would be said twice.
    if (slot === "fastener" && (value === "rod" || value === "main") && place[value] !== undefined) continue;
    const word = SLOT_WORDS[slot];
    if (slot === "ring") parts.push(`${value} ring`);
    else if (slot === "side" || slot === "nut") parts.push(`${word} ${String(value).toUpperCase()}`);
    else parts.push(word ? `${word} ${value}` : String(value).replaceAll("_", " "));
  }
  return parts.join(", ");
}
