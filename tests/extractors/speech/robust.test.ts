// Whatever is said, the parser answers: it never throws, keeps to its schema, and is a pure function of its input.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parse, readNumbers } from "../../../extractors/speech/index.ts";
import { LEXICON } from "../../../extractors/speech/lexicon.ts";
import { parsedSchema } from "../../../shared/events/reading.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { CONTEXTS } from "./contexts.ts";

const bench = fc
  .array(
    fc.oneof(
      fc.constantFrom(...LEXICON.keys()),
      fc.constantFrom("to", "for", "ate", "38841", "12,000", '.006"', "3/32", ",", "½", "°"),
    ),
    {
      maxLength: 40,
    },
  )
  .map((words) => words.join(" "));
const anyText = fc.oneof(fc.string({ maxLength: 2000 }), fc.string({ unit: "binary", maxLength: 500 }), bench);
const context = fc.constantFrom(...Object.values(CONTEXTS));

describe("any text", () => {
  test("is answered within the schema, its spans inside the text", () => {
    fc.assert(
      fc.property(anyText, context, (text, known) => {
        const parsed = parse(text, known, DEMO_SPEC);
        const checked = parsedSchema.safeParse(parsed);
        expect(checked.error?.message ?? "").toBe("");
        for (const { span } of parsed.readings) {
          expect(span[0]).toBeLessThanOrEqual(span[1]);
          expect(span[1]).toBeLessThanOrEqual(text.length);
        }
        for (const q of parsed.questions) expect(q.say.split(" ").length).toBeLessThan(8);
      }),
      { numRuns: 1500 },
    );
  });

  test("gives the same answer twice, and leaves context and spec as they were", () => {
    const spec = structuredClone(DEMO_SPEC);
    fc.assert(
      fc.property(bench, context, (text, known) => {
        const before = JSON.stringify(known);
        const once = parse(text, known, spec);
        expect(parse(text, structuredClone(known), structuredClone(spec))).toEqual(once);
        expect(JSON.stringify(known)).toBe(before);
      }),
      { numRuns: 300 },
    );
    expect(spec).toEqual(DEMO_SPEC);
  });

  test("never stops the numbers reader", () => {
    fc.assert(
      fc.property(anyText, (text) => {
        for (const number of readNumbers(text)) expect(Number.isFinite(number.value)).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });

  test("an accepted reading always has its place and a value in its band", () => {
    fc.assert(
      fc.property(bench, context, (text, known) => {
        for (const reading of parse(text, known, DEMO_SPEC).readings) {
          if (reading.do !== "accept") continue;
          expect(Number(reading.digits)).toBe(reading.value);
          expect(reading.place.cylinder ?? 1).toBeLessThanOrEqual(DEMO_SPEC.engine.cylinders);
          expect(reading.place.main ?? 1).toBeLessThanOrEqual(DEMO_SPEC.engine.mains);
        }
      }),
      { numRuns: 1000 },
    );
  });
});

describe("text of 2,000 characters", () => {
  const long = ["two ", "ring gap two top twelve thou ", "half a thou and ", "to two too for ", "no, ", "crack "];
  test.each(long)("made of %j is answered", (piece) => {
    const text = piece.repeat(2000 / piece.length);
    expect(parse(text, {}, DEMO_SPEC).readings).toEqual([]);
    expect(parse(`${piece.repeat(4000 / piece.length)}`, {}, DEMO_SPEC).text.length).toBeGreaterThan(2000);
  });
});
