// Which part "new piston in three" or "bored to thirty over" speaks of. First row that matches wins, longest names first.
import type { PartId } from "../../shared/build/index.ts";

const ROWS: readonly (readonly [RegExp, PartId])[] = [
  [/\bmain (bearing|shim|cap|babbitt)/, "main_bearing"],
  [/\b(rod|big end) (bearing|shim|cap|babbitt)/, "rod_bearing"],
  [/\bbush(ing)?\b/, "bush"],
  [/\b(wrist|piston|gudgeon) pin\b|\bpin\b/, "pin"],
  [/\brings?\b/, "rings"],
  [/\bpistons?\b/, "piston"],
  [/\bgasket\b/, "gasket"],
  [/\bguides?\b/, "guide"],
  [/\bsprings?\b/, "spring"],
  [/\bvalves?\b/, "valve"],
  [/\bhead\b|\bchamber\b/, "head"],
  [/\bcam(shaft)?\b/, "cam"],
  [/\bcrank(shaft|pins?)?\b|\bjournals?\b/, "crank"],
  [/\bbores?\b|\bbored\b|\bhoned?\b|\bsleeved?\b|\bcylinder\b/, "bore"],
  [/\brods?\b/, "rod"],
  [/\bblock\b/, "block"],
];

/** The part a change speaks of, or undefined when no part is named. */
export function partOf(text: string): PartId | undefined {
  const words = text.toLowerCase();
  return ROWS.find(([pattern]) => pattern.test(words))?.[1];
}
