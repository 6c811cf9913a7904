// Every sentence of the case tables reads as its table says; a failure prints how it was read.
import { describe, expect, test } from "vitest";
import { QUANTITIES } from "../../../shared/quantities/registry.ts";
import { TABLES } from "./cases/all.ts";
import { expectReadings, read } from "./read.ts";

describe.each(Object.entries(TABLES))("%s", (_name, table) => {
  const accepted = table.accepted.flatMap((row) => row.say.map((text) => ({ text, row })));
  test.each(accepted)("reads: $text", ({ text, row }) => {
    const { parsed, told } = expectReadings(text, row.is, row.context);
    for (const reading of parsed.readings) {
      const waits = QUANTITIES[reading.quantity].alwaysConfirm === true;
      expect(reading.do, told).toBe(waits ? "confirm" : "accept");
    }
  });

  const refused = table.refused.flatMap((row) => row.say.map((text) => ({ text, row })));
  test.each(refused)("asks: $text", ({ text, row }) => {
    const { parsed, told } = read(text, row.context);
    expect(parsed.readings, told).toEqual([]);
    expect(
      parsed.questions.map((q) => q.code),
      told,
    ).toContain(row.code);
  });
});
