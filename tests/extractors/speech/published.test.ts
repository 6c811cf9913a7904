// How machinists say numbers, against published words on it, and number words against an independent library.
import fc from "fast-check";
import { ToWords } from "to-words";
import { describe, expect, test } from "vitest";
import { readNumbers } from "../../../extractors/speech/index.ts";
import { cardinal } from "../../../extractors/speech/say/numberWords.ts";
import { CONTEXTS } from "./contexts.ts";
import { expectReadings, read } from "./read.ts";

describe("published ways of speaking", () => {
  // PMPA, "Why do we say tenths instead of ten-thousandths" (crib sheet), pmpa.org: a tenth is .0001, "a couple" .002.
  // https://www.pmpa.org/cribsheet-why-do-we-say-tenths-instead-of-ten-thousandths/
  test("a tenth is .0001 in", () => {
    expectReadings("a tenth", [["journal_taper", { main: 1 }, "0.0001", "in"]], {
      quantity: "journal_taper",
      place: { main: 1 },
    });
  });
  test("a couple is nearly enough two, so it is asked about", () => {
    const { parsed } = read("a couple more", CONTEXTS.rodClearance);
    expect(parsed.readings).toEqual([]);
  });

  // "Thou (length)", http://everything.explained.today/Thou_(length)/: five tenths .0005, three tenths .0003.
  test.each([
    ["five tenths", "0.0005"],
    ["three tenths", "0.0003"],
  ])("%s is %s in", (text, digits) => {
    expectReadings(`${text} loose`, [["pin_fit_bush", { cylinder: 2 }, digits, "in"]], CONTEXTS.pinFit);
  });

  // TM 9-243 (Army), reading a vernier micrometer: .200 + .075 + .011 + .0002 = .2862 in.
  test("a vernier micrometer's .2862 is read digit by digit and in thou and tenths", () => {
    for (const text of ["two eight six two", "point two eight six two", "two hundred and eighty-six thou and two tenths"]) {
      expectReadings(`lobe lift intake one ${text}`, [["lobe_lift", { cylinder: 1, valve: "intake" }, "0.2862", "in"]]);
    }
  });

  // NIST SP 811 (2008), B.6: the inch is 25.4 mm exactly, so 98.425 mm is the demo engine's 3.8750 in bore.
  test("a metric read-out of the nominal bore is placed in millimetres", () => {
    expectReadings("nine eight four two five", [["bore_diameter", { cylinder: 4 }, "98.425", "mm"]], CONTEXTS.metricBore);
  });
});

describe("number words against to-words (npm)", () => {
  const oracle = new ToWords({ localeCode: "en-US" });
  const plain = (words: string) => words.toLowerCase().replace(/[-,]/g, " ").replace(/\s+/g, " ").trim();

  test("are read back as the number they were made from", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999_999 }), (n) => {
        const words = oracle.convert(n);
        expect(
          readNumbers(words).map((number) => number.value),
          words,
        ).toEqual([n]);
      }),
      { numRuns: 2000 },
    );
  });

  test("our own cardinals are the same words", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999_999 }), (n) => {
        expect(plain(cardinal(n, false))).toBe(plain(oracle.convert(n)).replaceAll(" and ", " "));
      }),
      { numRuns: 1000 },
    );
  });

  test("are read as thou on the bench", () => {
    fc.assert(
      fc.property(fc.integer({ min: 4, max: 45 }), (n) => {
        expectReadings(`ring gap two top ${oracle.convert(n)} thou`, [
          ["ring_end_gap", { cylinder: 2, ring: "top" }, (n / 1000).toFixed(3), "in"],
        ]);
      }),
    );
  });
});
