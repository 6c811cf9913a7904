// Numbers that are easily taken for another: what is found from their sounds, against what a reader of the dictionary would say.
import { describe, expect, it } from "vitest";
import {
  isBlurred,
  isBreathLong,
  isFragile,
  isHomophone,
  isHushed,
  isReadOut,
  mayHaveSlipped,
} from "../../../extractors/hearing/doubt/fragile.ts";
import { leadWanted } from "../../../extractors/hearing/doubt/verdict.ts";
import { DIGITS, TEENS, TENS } from "../../../extractors/hearing/words/numbers.ts";
import { passOf } from "./passes.ts";

describe("numbers that hiss hides from one another", () => {
  // By the phones of the CMU Pronouncing Dictionary: F IH F T IY (N) and S IH K S T IY (N) differ in F, S and K alone, which have no voice.
  const HUSHED: readonly string[] = ["fifteen", "sixteen", "fifty", "sixty"];

  it.each(HUSHED)("%s is one", (word) => {
    expect(isHushed(word)).toBe(true);
  });

  it.each([...DIGITS, ...TEENS, ...TENS].filter((word) => !HUSHED.includes(word)))("%s is none", (word) => {
    expect(isHushed(word)).toBe(false);
  });
});

describe("a read-out", () => {
  it.each([
    ["alone", "three eight seven six", true],
    ["with its place before it", "bore two top thrust three eight seven six nine", true],
    ["with more after it", "crank journal one nine nine eight half a thou out of round", true],
    ["with a double", "three nine double oh two", true],
    ["in pairs", "three seven twelve", true],
    ["that ends in a pair with a digit", "one eight seventy nine", true],
    ["with a point", "ninety eight point four two", true],
    ["is not three digits, a point among them", "eleven point five", false],
    ["is not three digits", "three eight seven", false],
    ["is not three digits, two of them in one pair", "two twenty one", false],
    ["is not two sizes with a word between", "twelve thou fourteen", false],
    ["is not digits with words between", "two and three and four and five", false],
    ["is not nothing", "", false],
  ])("%s", (_, text, is) => {
    expect(isReadOut(text.split(" "))).toBe(is);
  });
});

describe("what noise makes of other words", () => {
  const LETTERED = "rod three nut b thirty nine foot pounds";
  const ZERO = "crankpin two one eight seven zero one";
  it.each([
    ["is a nut's letter", LETTERED, true],
    ["is not a nut without one", "rod three nut thirty nine foot pounds", false],
    ["is not an article", "rod two a thou", false],
    ["is a zero", ZERO, true],
    ["is not an oh", "crankpin two one eight seven oh one", false],
  ])("%s", (_, text, is) => {
    expect(isBlurred(text.split(" "))).toBe(is);
  });

  it.each([
    ["of a read-out that fits no better than it must, where it is loud", "one eight seven oh one", 11, 240, true],
    ["not of one that fits well there", "one eight seven oh one", 11, 220, false],
    ["not of one where it is less loud", "one eight seven oh one", 13, 270, false],
    ["of a teen that fits no better than it must, where it is loud", "ring gap four second fifteen thou", 11, 260, true],
    ["not of one that fits well there", "ring gap four second fifteen thou", 11, 240, false],
    ["not of one where it is less loud", "ring gap four second fifteen thou", 13, 270, false],
    ["not of another figure there", "rod two side nine thou", 11, 270, false],
  ])("is a number %s", (_, text, snr, strangeness, is) => {
    expect(mayHaveSlipped(text.split(" "), snr, strangeness)).toBe(is);
  });

  it.each([
    ["a nut's letter", LETTERED, 0],
    ["a zero", ZERO, 10],
  ])("%s has no lead that speaks for it in noise, and needs no more than others in quiet", (_, text, quiet) => {
    const lead = (snr: number) => leadWanted(passOf(text), "ok", snr, () => 40);
    expect(lead(12)).toBe(Number.POSITIVE_INFINITY);
    expect(lead(30)).toBe(quiet);
  });

  it("leaves other words in noise to their leads", () => {
    expect(leadWanted(passOf("rod two a thou"), "ok", 12, () => 40)).toBe(0);
  });
});

describe("a read-out, whoever says it", () => {
  it.each([
    ["must lead by something", "bore one middle axial three eight seven eight six", 10],
    ["unlike a size in thou", "ring gap two top twelve thou", 0],
  ])("%s", (_, text, lead) => {
    expect(leadWanted(passOf(text), "ok", 30, () => 40)).toBe(lead);
  });
});

describe("a fragile number", () => {
  it.each([
    ["a teen", "fifteen thou", true],
    ["a bare ten", "fifty thou", true],
    ["a ten with a digit", "fifty two foot pounds", false],
    ["a bare half at the end", "eleven and a half", true],
    ["a digit", "five thou", false],
  ])("%s", (_, text, is) => {
    expect(isFragile(text.split(" "))).toBe(is);
  });
});

describe("a word that sounds as another does", () => {
  it.each([
    ["for, where a number follows", "chamber for two two two five", true],
    ["for, where none does", "size for size on one", false],
    ["four", "chamber four two two five", false],
    ["for at the end", "what for", false],
  ])("%s", (_, text, is) => {
    expect(isHomophone(text.split(" "))).toBe(is);
  });
});

describe("a figure no longer than a breath", () => {
  it.each([
    ["a digit behind a name", "rod~p three~p side two~v", true],
    ["a digit behind a place", "ring gap two~p top~p eight~v", true],
    ["a digit with its unit", "rod~p three~p side two~v thou~v", false],
    ["a digit of a longer number", "rod~p three~p side twenty~v two~v", false],
    ["a digit behind a point", "stroke four~v point~v five~v", false],
    ["a longer number", "ring gap two~p top~p eleven~v", false],
    ["a digit that is all that was said", "five~v", false],
    ["a place's number at the end", "two~v thou~v clearance main~p two~p", false],
  ])("%s", (_, text, is) => {
    expect(isBreathLong(text.split(" "))).toBe(is);
  });
});
