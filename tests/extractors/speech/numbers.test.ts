// Plain numbers and measures of general English, value first; and what must give no number.
import { describe, expect, test } from "vitest";
import { readNumbers } from "../../../extractors/speech/index.ts";
import { NO_NUMBER, NUMBER_CASES } from "./cases/numbers.ts";

describe.each(NUMBER_CASES)("%d %s", (value, unit, say) => {
  test.each(say)("%s", (text) => {
    const found = readNumbers(text);
    expect(found.map((n) => [n.value, n.unit])).toEqual([[value, unit]]);
    const span = found[0]?.span ?? [0, 0];
    expect(span[1]).toBeLessThanOrEqual(text.length);
  });
});

describe("no number", () => {
  test.each(NO_NUMBER)("%s", (text) => {
    expect(readNumbers(text)).toEqual([]);
  });
});
