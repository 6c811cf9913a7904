// When one check is enough for a look, and when no check could help it. Figures of the sentences below are made by hand.
import { describe, expect, it } from "vitest";
import { isEnough } from "../../../extractors/hearing/doubt/agreement.ts";
import type { Evidence } from "../../../extractors/hearing/doubt/evidence.ts";
import type { Setting } from "../../../extractors/hearing/doubt/odd.ts";
import { FAR_AHEAD, mayStand } from "../../../extractors/hearing/doubt/stands.ts";
import { isHopeless } from "../../../extractors/hearing/doubt/verdict.ts";
import type { Clip } from "../../../extractors/hearing/heard.ts";
import { passOf } from "./passes.ts";

const KNOWN: Setting = { fitted: true };
const clipAt = (snr: number, treble = snr): Clip => ({
  pcm: new Float32Array(0),
  rate: 16_000,
  levels: { from: 0, to: 0, noise: -snr, snr },
  hammered: false,
  inNoise: false,
  treble: () => treble,
  at: () => new Float32Array(0),
  seconds: 1,
});
const QUIET = clipAt(40);
const evidence = (strangeness: number, over: Partial<Evidence> = {}): Evidence => ({
  strangeness,
  unexplained: 0,
  struck: "no",
  words: [],
  ...over,
});
const GAP = passOf("two top twelve thou");
const READ_OUT = passOf("three eight seven five one");

describe("a look stands on one check", () => {
  it.each([
    ["that fits well in a voice that is known", GAP, evidence(200), QUIET, KNOWN, true],
    ["of a stranger", GAP, evidence(200), QUIET, {}, false],
    ["that fits badly", GAP, evidence(310), QUIET, KNOWN, false],
    ["that will be asked about because of what it says", { ...GAP, plain: false }, evidence(200), QUIET, KNOWN, true],
    ["of a read-out that fits well", READ_OUT, evidence(250), QUIET, KNOWN, true],
    ["of a read-out that fits a little worse", READ_OUT, evidence(270), QUIET, KNOWN, false],
    ["in noise", GAP, evidence(200), clipAt(14), KNOWN, true],
    ["in noise, where all cost more", GAP, evidence(315), clipAt(20), KNOWN, true],
    ["in noise, that fits badly", GAP, evidence(345), clipAt(20), KNOWN, false],
    ["of a read-out in noise that fits badly", READ_OUT, evidence(305), clipAt(20), KNOWN, false],
    ["in loud noise that hides consonants", GAP, evidence(200), clipAt(11), KNOWN, false],
    ["in loud hum, which hides none", GAP, evidence(200), clipAt(9, 25), KNOWN, true],
    ["in hum too loud to be trusted", GAP, evidence(200), clipAt(7, 25), KNOWN, false],
    ["in some hiss", GAP, evidence(200), clipAt(20, 12), KNOWN, true],
    ["in loud hiss", GAP, evidence(200), clipAt(20, 6), KNOWN, false],
    ["of a word that a little hiss may hide", passOf("sixteen thou"), evidence(200), clipAt(40, 15), KNOWN, false],
    ["of the same in quiet", passOf("sixteen thou"), evidence(200), QUIET, KNOWN, true],
    ["with sound that no word explains", GAP, evidence(200, { unexplained: 0.3 }), QUIET, KNOWN, false],
    ["with a word pressed in", GAP, evidence(200, { words: [{ word: "top", phone: 0.03, cost: 200 }] }), QUIET, KNOWN, true],
    ["with a word put in", GAP, evidence(200, { words: [{ word: "top", phone: 0.03, cost: 600 }] }), QUIET, KNOWN, false],
    ["of a command, which has too few rivals", passOf("scratch that", { command: true }), evidence(200), QUIET, KNOWN, false],
    ["of a free note", passOf("note"), evidence(200), QUIET, KNOWN, false],
  ] as const)("%s", (_what, look, found, clip, setting, stands) => {
    expect(mayStand(look, found, clip, setting)).toBe(stands);
  });

  it("and is enough then to learn from, as three that agree are", () => {
    const far = { ...GAP, full: false, ahead: FAR_AHEAD };
    const counted = (voters: readonly (typeof GAP)[], agreement = 1) => ({ winner: GAP, voters, agreement });
    expect(isEnough(counted([GAP, far]))).toBe(true);
    expect(isEnough(counted([GAP, GAP]))).toBe(false);
    expect(isEnough(counted([GAP, { ...far, ahead: FAR_AHEAD - 1 }]))).toBe(false);
    expect(isEnough(counted([GAP, GAP, GAP]))).toBe(true);
    expect(isEnough(counted([GAP, GAP, GAP, far], 0.75))).toBe(false);
  });
});

describe("a look is hopeless", () => {
  it.each([
    ["where nothing so strange counts", passOf("bore two top twelve", {}, 360), { elsewhere: true }, true],
    ["not where it might count still", passOf("bore two top twelve", {}, 310), { elsewhere: true }, false],
    ["not where a far lead would speak for it", passOf("bore two top twelve", {}, 400), KNOWN, false],
    ["not for a brief command, which costs more in every voice", passOf("wrong", { command: true }, 500), KNOWN, false],
  ] as const)("%s", (_what, look, setting, hopeless) => {
    expect(isHopeless(look, setting)).toBe(hopeless);
  });
});
