// In whose name an entry is logged that a device gives back after the shop had lost it: as before, or as carried by this one.
import { describe, expect, it } from "vitest";
import { narrowed } from "../../server/builds/who.ts";

const who = { device: "pass-1", by: "Bench phone", stillIn: () => undefined };

describe("an entry given back by a paired device", () => {
  it.each([
    ["its own", { device: "pass-1/part-a", by: "Bench phone (Ann)" }, { device: "pass-1/part-a", by: "Bench phone (Ann)" }],
    ["its own, of nobody named", { device: "pass-1/part-a", by: "Bench phone" }, { device: "pass-1/part-a", by: "Bench phone" }],
    ["another's", { device: "pass-2/part-b", by: "Desk (Ben)" }, { device: "pass-1/part-b", by: "Bench phone (Desk (Ben))" }],
    ["a name that only begins alike", { by: "Bench phone two" }, { device: "pass-1", by: "Bench phone (Bench phone two)" }],
  ])("%s", (_, claim, logged) => {
    expect(narrowed(who, claim)).toEqual(logged);
  });
});
