// What a sentence began with is heard as that once, and names that sound alike are taken together.
import { describe, expect, it } from "vitest";
import { Beginning } from "../../../extractors/hearing/beginning.ts";
import { namedIn } from "../../../extractors/hearing/grammar/index.ts";
import { likeness } from "../../../extractors/hearing/words/alike.ts";

describe("what a sentence began with", () => {
  it("is kept for that sentence alone, until it is settled", () => {
    const beginning = new Beginning();
    expect(beginning.note(3, ["bore_diameter"])).toBe(true);
    expect(beginning.of(3)).toEqual(["bore_diameter"]);
    expect(beginning.of(4)).toEqual([]);
    expect(beginning.of(undefined)).toEqual([]);
    beginning.forget();
    expect(beginning.of(3)).toEqual([]);
  });

  it("is not heard a second time where that was in vain, but something else is", () => {
    const beginning = new Beginning();
    beginning.note(3, ["bore_diameter"]);
    beginning.heardInVain();
    expect(beginning.note(3, ["bore_diameter"])).toBe(false);
    expect(beginning.note(3, ["ring_end_gap"])).toBe(true);
    beginning.heardInVain();
    expect(beginning.note(4, ["ring_end_gap"])).toBe(true);
  });

  it("of a sentence without a number is never taken for another's", () => {
    const beginning = new Beginning();
    beginning.note(undefined, ["bore_diameter"]);
    beginning.heardInVain();
    expect(beginning.note(undefined, ["bore_diameter"])).toBe(true);
  });
});

describe("names that sound alike", () => {
  it.each([
    ["bored", "bore_diameter", true],
    ["bore", "boss_id", true],
    ["bore", "ring_end_gap", false],
    ["ring gap", "ring_end_gap", true],
    ["ring gap", "valve_lash", false],
    ["crank end float", "cam_end_float", true],
  ] as const)("%s may be meant for %s: %s", (name, quantity, meant) => {
    expect(namedIn(name.split(" ")).includes(quantity)).toBe(meant);
  });

  it("are nothing for a name that is not in the dictionary, or for none", () => {
    expect(namedIn(["frobnicate"])).toEqual([]);
    expect(namedIn([])).toEqual([]);
  });

  it.each([
    ["crankpin~p four~p weight", "crankpin_diameter", true],
    ["crankpin~p four~p weight", "mass", true],
    ["main~p two~p side", "main_journal_diameter", false],
    ["rod~p three~p nut~p b~p", "fastener_torque", true],
  ] as const)("%s, nouns of places among them, may be meant for %s: %s", (beginning, quantity, meant) => {
    expect(namedIn(beginning.split(" ")).includes(quantity)).toBe(meant);
  });

  // Phones by hand from the CMU pronouncing dictionary (www.speech.cs.cmu.edu/cgi-bin/cmudict): B AO R and B AO R D, one put in
  // of four; F IH F T IY N and F IH F T IY, one left out of six; S IH K S and N AY N, no phone in common.
  it.each([
    ["bore", "bored", 3 / 4],
    ["fifteen", "fifty", 5 / 6],
    ["six", "nine", 0],
    ["ring gap", "ring gap", 1],
  ])("%s and %s have this share of phones in common", (one, other, share) => {
    expect(likeness(one, other)).toBeCloseTo(share, 10);
    expect(likeness(other, one)).toBeCloseTo(share, 10);
  });
});
