// Reads a sentence for a test and tells, when it fails, how it was read.
import { expect } from "vitest";
import { parseWhy } from "../../../extractors/speech/index.ts";
import type { Context, Parsed } from "../../../shared/events/reading.ts";
import type { Place } from "../../../shared/places/places.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import type { Spec } from "../../../shared/spec/spec.ts";

export interface Read {
  readonly parsed: Parsed;
  /** Sentence, context and trace, for failure messages. */
  readonly told: string;
}

/** Parse with the demo engine's sheet and keep the trace. */
export function read(text: string, context: Context = {}, spec: Spec = DEMO_SPEC): Read {
  const { parsed, why } = parseWhy(text, context, spec);
  const { readings, questions, commands, notes, unread } = parsed;
  const out = JSON.stringify({ readings, questions, commands, notes, unread });
  return { parsed, told: `"${text}" ${JSON.stringify(context)}\n${why.join("\n")}\ngave ${out}` };
}

/** Expect exactly these figures: quantity, places (more slots may stand), value as exact decimal, unit. */
export function expectReadings(
  text: string,
  expected: readonly (readonly [string, Place, string, string])[],
  context: Context = {},
): Read {
  const got = read(text, context);
  const { readings } = got.parsed;
  expect(readings.length, got.told).toBe(expected.length);
  expected.forEach(([quantity, place, digits, unit], k) => {
    const reading = readings[k];
    expect(reading?.quantity, got.told).toBe(quantity);
    expect(reading?.place, got.told).toMatchObject(place);
    expect(reading?.value, got.told).toBe(Number(digits));
    expect(Number(reading?.digits), got.told).toBe(Number(digits));
    expect(reading?.unit, got.told).toBe(unit);
  });
  return got;
}
