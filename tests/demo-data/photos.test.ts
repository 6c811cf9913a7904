// The drawn demo pictures against their manifest: files, camera times, cards in the frame, and the faults put in on purpose.
import { readdir } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { RECIPES } from "../../demo-data/drawing/recipes.ts";
import { DEMO_PHOTOS, type DemoPhoto } from "../../demo-data/photos.ts";
import { DAY_BOOK } from "../../demo-data/scenario.ts";
import { openPhotoReader } from "../../extractors/photo/index.ts";
import { type EarlierPhoto, photoDoubts } from "../../shared/photo/doubts.ts";
import { DEMO_PROOFS } from "../../shared/spec/demo/proofs.ts";

const FOLDER = fileURLToPath(new URL("../../demo-data/photos/", import.meta.url));
const taken: (EarlierPhoto & { file: string })[] = [];

beforeAll(async () => {
  const reader = openPhotoReader({ atOnce: 2 });
  const read = async ({ file, place, step, proof }: DemoPhoto) => {
    const { facts } = await reader.read(`${FOLDER}${file}`);
    return { id: file, file, place, step, photo: facts, ...(proof ? { proof } : {}) };
  };
  taken.push(...(await Promise.all(DEMO_PHOTOS.map(read))));
});

describe("demo pictures", () => {
  it("are all there, and no others", async () => {
    const files = (await readdir(FOLDER)).filter((name) => name.endsWith(".jpg"));
    expect(files.sort()).toEqual(DEMO_PHOTOS.map(({ file }) => file).sort());
    expect(files.length).toBeGreaterThanOrEqual(12);
  });

  it("carry the camera time of the manifest (after a change of the day book: npm run demo:photos -- --times)", () => {
    expect(taken.map(({ photo }) => photo.taken)).toEqual(
      DEMO_PHOTOS.map((photo) => ({ at: photo.taken, source: "exif_original", zoneKnown: true })),
    );
  });

  it("belong to lines of the day book and to proofs of the spec sheet", () => {
    const groups = DAY_BOOK.flatMap((line) => ("photos" in line ? [line.photos] : []));
    expect([...new Set(DEMO_PHOTOS.map(({ group }) => group))].sort()).toEqual([...groups].sort());
    for (const { proof, step } of DEMO_PHOTOS) {
      if (proof) expect(DEMO_PROOFS.find(({ id }) => id === proof)?.step).toBe(step);
    }
  });

  it("show the cards that were laid into them", () => {
    for (const { file, card } of RECIPES) {
      const read = taken.find((photo) => photo.file === file)?.photo.card;
      expect(read).toEqual(card ? { place: card.place, step: card.step, subject: card.subject } : undefined);
    }
  });

  it("are doubted only where a fault was put in", () => {
    const doubts = taken.flatMap((photo, index) =>
      photoDoubts(photo, taken.slice(0, index)).map(({ code }) => `${photo.file} ${code}`),
    );
    expect(doubts).toEqual(["gauge-strip-2-blurred.jpg blurred", "gauge-strip-4.jpg near_twin"]);
  });

  it("leave out the cotters of rod 3 and the blue print of main 2", () => {
    const places = (proof: string) =>
      DEMO_PHOTOS.filter((photo) => photo.proof === proof).map(({ place }) => place.rod ?? place.main);
    expect(places("cotter")).toEqual([1, 2, 4]);
    expect(places("blue_print")).toEqual([1, 3]);
  });
});
