// Doubts about a photo: each guard trips on its own fault, and a sound photo trips none.
import { describe, expect, it } from "vitest";
import { type EarlierPhoto, fingerprintDistance, type PhotoTaken, photoDoubts } from "../../../shared/photo/doubts.ts";

const sha = (digit: string) => digit.repeat(64);
const STEP = { id: "final_torque", openedAt: "2026-03-09T10:00:00+01:00" } as const;

function photo(changes: Partial<PhotoTaken["photo"]> = {}, place: PhotoTaken["place"] = { rod: 1 }): PhotoTaken {
  return {
    place,
    step: "final_torque",
    proof: "cotter",
    photo: {
      sha256: sha("a"),
      bytes: 1000,
      type: "image/jpeg",
      width: 4000,
      height: 3000,
      orientation: 1,
      taken: { at: "2026-03-09T10:05:00+01:00", source: "exif_original", zoneKnown: true },
      fingerprint: "00ff00ff00ff00ff",
      focus: 80,
      highlights: 0.02,
      shadows: 0.05,
      ...changes,
    },
  };
}
const earlier = (changes: Partial<PhotoTaken["photo"]>, place: PhotoTaken["place"]): EarlierPhoto => ({
  ...photo(changes, place),
  id: "e1",
});
const codes = (...args: Parameters<typeof photoDoubts>) => photoDoubts(...args).map(({ code }) => code);
const taken = (at: string, zoneKnown: boolean, source: PhotoTaken["photo"]["taken"]["source"] = "exif_original") => ({
  taken: { at, zoneKnown, source },
});
const FAR = { sha256: sha("b"), fingerprint: "ff00ff00ff00ff00" };

const TABLE: [string, PhotoTaken, EarlierPhoto[], string[]][] = [
  ["sound", photo(), [earlier(FAR, { rod: 2 })], []],
  ["the same bytes at the same place", photo(), [earlier({}, { rod: 1 })], ["same_photo"]],
  ["the same bytes at another place", photo(), [earlier({}, { rod: 2 })], ["same_photo"]],
  [
    "near-twin for another rod",
    photo(),
    [earlier({ sha256: sha("b"), fingerprint: "00ff00ff00ff00f0" }, { rod: 2 })],
    ["near_twin"],
  ],
  ["near-twin at its own place is a second look", photo(), [earlier({ sha256: sha("b") }, { rod: 1 })], []],
  ["near-twin filed as its rod's nut", photo(), [earlier({ sha256: sha("b") }, { fastener: "rod", rod: 1 })], []],
  ["near-twin for a main of the same number", photo(), [earlier({ sha256: sha("b") }, { main: 1 })], ["near_twin"]],
  ["near-twin for another cylinder", photo(), [earlier({ sha256: sha("b") }, { cylinder: 2 })], ["near_twin"]],
  ["near-twin for its own cylinder", photo(), [earlier({ sha256: sha("b") }, { cylinder: 1 })], []],
  ["card of another cylinder", photo({ card: { place: { cylinder: 4 } } }), [], ["card_disagrees"]],
  ["six bits apart", photo(), [earlier({ sha256: sha("b"), fingerprint: "00ff00ff00ff00c0" }, { rod: 2 })], []],
  ["a minute too old", photo(taken("2026-03-09T09:59:00+01:00", true)), [], ["older_than_step"]],
  ["the same moment in another zone", photo(taken("2026-03-09T04:05:00-05:00", true)), [], []],
  ["local time that may be right in some zone", photo(taken("2026-03-09T03:00:00", false)), [], []],
  ["local time that is too old in every zone", photo(taken("2026-03-07T03:00:00", false)), [], ["older_than_step"]],
  ["only the server knows when", photo(taken("2026-03-01T00:00:00Z", true, "server")), [], []],
  ["card says another rod", photo({ card: { place: { rod: 3 } } }), [], ["card_disagrees"]],
  ["card says less", photo({ card: { place: { rod: 1 } } }, { rod: 1, nut: "a" }), [], []],
  ["blurred", photo({ focus: 2 }), [], ["blurred"]],
  ["glare", photo({ highlights: 0.5 }), [], ["glare"]],
  ["dark", photo({ shadows: 0.8 }), [], ["too_dark"]],
  [
    "gravest first",
    photo({ focus: 2, card: { place: { rod: 3 } }, ...taken("2026-03-01T00:00:00Z", true) }),
    [earlier({}, { rod: 2 })],
    ["card_disagrees", "same_photo", "older_than_step", "blurred"],
  ],
];

describe("doubts about a photo", () => {
  it.each(TABLE)("%s", (_, subject, before, expected) => {
    const doubts = photoDoubts(subject, before, STEP);
    expect(doubts.map(({ code }) => code)).toEqual(expected);
    for (const { say, why } of doubts) {
      expect(say.split(/\s+/).length).toBeLessThanOrEqual(8);
      expect(why).toMatch(/\.$/);
    }
  });

  it("says nothing of age where no step is known, and takes a shop's own floors", () => {
    expect(codes(photo(taken("2020-01-01T00:00:00Z", true)), [])).toEqual([]);
    expect(codes(photo({ focus: 20 }), [], undefined, { focus: 30, twinBits: 5, highlights: 1, shadows: 1 })).toEqual([
      "blurred",
    ]);
  });

  it("counts differing bits", () => {
    expect(fingerprintDistance("0000000000000000", "ffffffffffffffff")).toBe(64);
    expect(fingerprintDistance("8000000000000001", "0000000000000000")).toBe(2);
    expect(fingerprintDistance("0123456789abcdef", "0123456789abcdef")).toBe(0);
  });
});
