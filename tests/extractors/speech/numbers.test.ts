// Plain numbers and measures of general English, value first; and what must give no number.
import { describe, expect, test } from "vitest";
import { readNumbers } from "../../../extractors/speech/index.ts";

const CASES: readonly (readonly [value: number, unit: string | undefined, say: readonly string[]])[] = [
  [14, undefined, ["fourteen", "the count is fourteen", "Fourteen."]],
  [
    2417,
    undefined,
    ["two thousand four hundred seventeen", "two thousand four hundred and seventeen", "twenty-four hundred seventeen"],
  ],
  [36052, undefined, ["thirty-six thousand and fifty-two", "thirty six thousand fifty two", "thirtysix thousand fifty two"]],
  [140, undefined, ["one forty", "a hundred and forty", "hundred forty"]],
  [-7, undefined, ["minus seven", "negative seven"]],
  [0, undefined, ["zero", "nought"]],
  [17.05, undefined, ["seventeen point oh five", "seventeen point zero five", "seventeen point nought five"]],
  [0.375, undefined, ["three eighths", "point three seven five"]],
  [2.75, undefined, ["two and three quarters"]],
  [0.4, undefined, ["two fifths", "two out of five"]],
  [0.21875, undefined, ["seven thirty seconds"]],
  [48, undefined, ["four dozen"]],
  [12, "km", ["twelve kilometers", "twelve kilometres", "12 km"]],
  [0.5, "l", ["half a litre", "half liter", "one half liter"]],
  [62, "in", ["five feet two inches", "5 feet and 2 inches"]],
  [0.012, "in", ["twelve thou"]],
  [35, "ft_lbf", ["thirty-five foot pounds"]],
  [21.5, "degC", ["twenty-one point five degrees celsius"]],
  [1, "kg", ["a kilogram"]],
  [9, "psi", ["nine psi"]],
];

describe.each(CASES)("%d %s", (value, unit, say) => {
  test.each(say)("%s", (text) => {
    const found = readNumbers(text);
    expect(found.map((n) => [n.value, n.unit])).toEqual([[value, unit]]);
    const span = found[0]?.span ?? [0, 0];
    expect(span[1]).toBeLessThanOrEqual(text.length);
  });
});

describe("no number", () => {
  test.each([
    "a few",
    "several hundred people",
    "a couple of days",
    "the first one",
    "that one is better",
    "forty second",
    "thirty fourth",
    "seven tenths",
    "five hundredths",
    "two pounds of nails",
    "ninety degrees",
    "one two three",
    "twelve over thirty",
    "in 1987 it rained",
    "meet at 4:30",
    "part number X-204B",
    "the 45mm bolt",
    "it cost $25",
    "20 degrees below zero",
  ])("%s", (text) => {
    expect(readNumbers(text)).toEqual([]);
  });
});
