// A limit as text in, what is said aloud of it out: in the units of the bench, and of two bounds the one that decides.
import type { Finding } from "../../shared/rules/index.ts";

/** Lengths under one are said in the bench's small unit. */
const SMALL = [
  { unit: / in(?= |$)/, said: " thou", of: 1000 },
  { unit: / mm(?= |$)/, said: " hundredths", of: 100 },
] as const;

/** A limit as it is said: small lengths in thou or hundredths to one decimal, the exact ones stand on the screen. */
export function sayLimit(limit: string): string {
  const numbers = limit.match(/\d+\.\d+/g) ?? [];
  const small = SMALL.find(({ unit }) => unit.test(limit));
  if (small === undefined || numbers.length === 0 || numbers.some((text) => Number(text) >= 1)) return limit;
  const told = limit.replace(/\d+\.\d+/g, (text) => (Number(text) * small.of).toFixed(1).replace(/\.0$/, ""));
  return told.replace(small.unit, small.said);
}

/** A limit as a finding has it, and the value held against it. */
type Judged = Pick<Finding, "limit" | "value">;

/** How much of a tolerance lies at each of its ends: a good figure there is said with its bound. */
const NEAR = 0.1;

/** A limit of two bounds, how far above the low one a value stands as a share of the tolerance, and what follows the numbers. */
function within(limit: string, value: number | null): { low: string; high: string; unit: string; share: number } | undefined {
  const [, low, high, unit = ""] = limit.match(/^(-?[\d.]+) to (-?[\d.]+)(.*)$/) ?? [];
  if (value === null || low === undefined || high === undefined || !(Number(high) > Number(low))) return undefined;
  return { low, high, unit, share: (value - Number(low)) / (Number(high) - Number(low)) };
}

/** What decided, as it is said: the bound that a value is beyond or nearest to, or the whole of a limit that has no two. */
export function sayBound({ limit, value }: Judged): string {
  if (limit === null) return "";
  const at = within(limit, value);
  if (at === undefined) return `limit ${sayLimit(limit)}`;
  return at.share < 0.5 ? `minimum ${sayLimit(at.low + at.unit)}` : `maximum ${sayLimit(at.high + at.unit)}`;
}

/** Whether a good figure stands so close to a bound that it is worth saying. */
export function isNearBound({ limit, value }: Judged): boolean {
  const at = limit === null ? undefined : within(limit, value);
  return at !== undefined && (at.share <= NEAR || at.share >= 1 - NEAR);
}
