// The log as entries: what was said stands with what came of it; sieves pick by cylinder and step.
import { describe, expect, it } from "vitest";
import type { BenchEvent } from "../../../shared/events/events.ts";
import { entriesOf, passes } from "../../../web/book/entries.ts";
import { opened, reading, testStamp } from "../../support/events.ts";

const rows = (events: readonly BenchEvent[]) => events.map((event, index) => ({ event, seq: index + 1 }));

describe("entries of the day book", () => {
  it("puts the words, their readings and questions into one entry", () => {
    const stamp = testStamp();
    const words = stamp.make("utterance.heard", { text: "rings two, twelve, fourteen", by: "voice" });
    const utterance = words.id;
    const taken = [
      stamp.make("reading.taken", { utterance, reading: reading("ring_end_gap", { cylinder: 2, ring: "top" }, "0.012") }),
      stamp.make("reading.taken", { utterance, reading: reading("ring_end_gap", { cylinder: 2, ring: "second" }, "0.014") }),
    ];
    const asked = stamp.make("question.asked", { utterance, question: { code: "need_number", say: "oil ring?" } });
    const entries = entriesOf(rows([opened(stamp), words, ...taken, asked]));
    expect(entries.map(({ kind }) => kind)).toEqual(["paper", "said"]);
    expect(entries[1]).toMatchObject({ text: "rings two, twelve, fourteen", readings: taken.map(({ id }) => id), spoken: true });
    expect(entries[1]?.questions).toHaveLength(1);
  });

  it("has two times: its device's and the shop's", () => {
    const stamp = testStamp();
    const [opening] = rows([opened(stamp)]);
    if (opening === undefined) throw new Error("no row");
    const receivedAt = "2026-03-04T09:12:00.000Z";
    expect(entriesOf([{ ...opening, receivedAt }])[0]).toMatchObject({ at: opening.event.at, receivedAt });
    expect(entriesOf([opening])[0]?.receivedAt).toBeUndefined();
  });

  it("stands a correction where it was said, naming what it corrects", () => {
    const stamp = testStamp();
    const first = stamp.make("reading.taken", { reading: reading("ring_end_gap", { cylinder: 2, ring: "top" }, "0.012") });
    const words = stamp.make("utterance.heard", { text: "make it thirteen", by: "typed" });
    const corrected = stamp.make("reading.corrected", {
      target: first.id,
      utterance: words.id,
      reading: reading("ring_end_gap", { cylinder: 2, ring: "top" }, "0.013"),
    });
    const entries = entriesOf(rows([opened(stamp), first, words, corrected]));
    expect(entries.at(-1)?.acts).toEqual([{ verb: "corrected", target: first.id }]);
  });

  it("sieves by cylinder, a rod counting as its cylinder, and by step", () => {
    const stamp = testStamp();
    const events = [
      opened(stamp),
      stamp.make("step.opened", { step: "rod_fit" }),
      stamp.make("reading.taken", { step: "rod_fit", reading: reading("bearing_clearance", { rod: 3 }, "0.002") }),
      stamp.make("reading.taken", { step: "rings", reading: reading("ring_end_gap", { cylinder: 2, ring: "top" }, "0.012") }),
    ];
    const entries = entriesOf(rows(events));
    expect(entries.filter((entry) => passes(entry, { cylinder: 3 })).map(({ step }) => step)).toEqual(["rod_fit"]);
    expect(entries.filter((entry) => passes(entry, { step: "rod_fit" }))).toHaveLength(2);
    expect(entries.filter((entry) => passes(entry, { step: "rod_fit", cylinder: 2 }))).toEqual([]);
    expect(entries.filter((entry) => passes(entry, {}))).toHaveLength(entries.length);
  });

  it("marks what has not reached the shop", () => {
    const stamp = testStamp();
    const event = stamp.make("utterance.heard", { text: "note, nick on the cheek", by: "typed" });
    expect(entriesOf([{ event }])[0]?.waits).toBe(true);
    expect(entriesOf([{ event, seq: 4 }])[0]?.waits).toBe(false);
  });
});
