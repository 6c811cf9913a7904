// Every reader of what comes from outside under spoiled files and texts: a result, or a refusal in one sentence with a stable code,
// in bounded time and memory. `FUZZ_SECONDS=60 npm run fuzz` goes on for longer.
import fc from "fast-check";
import sharp from "sharp";
import { beforeAll, describe, expect, it, vi } from "vitest";
import { readWav } from "../../../extractors/hearing/audio/wav.ts";
import { openPhotoReader, sniffPhoto } from "../../../extractors/photo/index.ts";
import { parse, readNumbers } from "../../../extractors/speech/index.ts";
import { parseRange } from "../../../server/http/range.ts";
import { exportJson } from "../../../server/move/export-build.ts";
import { readExport } from "../../../server/move/import-build.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { readSpecFile, writeSpecFile } from "../../../shared/spec/read.ts";
import { readCarried } from "../../../web/store/carry-file.ts";
import { bootShop, makeWav, openDemoBuild, takeClosers } from "../helper.ts";
import { bounds, held, PATIENCE_MS, slowest, tellsNothing, within } from "./bounds.ts";
import { spoiledBytes, spoiledJson, trickText } from "./spoil.ts";

vi.setConfig({ testTimeout: PATIENCE_MS });

/** A refusal that a reader makes on purpose. */
const REFUSALS: ReadonlySet<string> = new Set(["HearingError", "PhotoError", "MoveError", "PlainError", "ServiceError"]);

async function read(what: string, work: () => unknown): Promise<void> {
  try {
    await within(what, work);
  } catch (error) {
    const { name, message } = error as Error;
    if (!REFUSALS.has(name)) throw error;
    expect(message, what).toMatch(/^Expected /);
    tellsNothing(what, message);
  }
}

async function tryOut<T>(what: string, tries: number, input: fc.Arbitrary<T>, reader: (value: T) => unknown): Promise<void> {
  for (const bound of bounds(tries))
    await fc.assert(
      fc.asyncProperty(input, (value) => read(what, () => reader(value))),
      bound,
    );
}

let pictures: Buffer[];
let exported: string;
beforeAll(async () => {
  const plain = sharp({ create: { width: 48, height: 32, channels: 3, background: "#765" } });
  const tags = { IFD0: { Make: "x" }, IFD2: { DateTimeOriginal: "2026:03:04 10:11:12" } };
  pictures = await Promise.all([
    plain.clone().withExif(tags).jpeg().toBuffer(),
    plain.clone().png().toBuffer(),
    plain.clone().webp().toBuffer(),
  ]);
  const shop = await bootShop();
  const build = await openDemoBuild(shop.app);
  await shop.app.inject({ method: "POST", url: `/api/builds/${build}/utterances`, payload: { text: "bore 1 3.8750" } });
  exported = await exportJson(shop.data.store, build);
  await takeClosers()();
});

describe("readers of spoiled input", () => {
  it("sound", () => tryOut("sound", 3000, spoiledBytes([makeWav(0.2), makeWav(0.05, 8000), makeWav(0.01, 48_000)]), readWav));

  it("what kind of picture", () => tryOut("kind of picture", 3000, spoiledBytes(pictures), sniffPhoto));

  it("pictures, with what they say of themselves and the cards in them", async () => {
    const before = held();
    const reader = openPhotoReader();
    await tryOut("a picture", 45, spoiledBytes(pictures), (bytes) => reader.read(Buffer.from(bytes)));
    expect(held() - before).toBeLessThan(64 * 1024 * 1024);
  });

  it("exports of a build", async () => {
    await tryOut(
      "an export",
      60,
      spoiledJson([JSON.parse(exported)]).map((value) => JSON.stringify(value)),
      readExport,
    );
    await tryOut(
      "an export's bytes",
      60,
      spoiledBytes([Buffer.from(exported)]).map((bytes) => Buffer.from(bytes).toString()),
      readExport,
    );
  });

  it("spec sheets", async () => {
    const sheet = Buffer.from(writeSpecFile(DEMO_SPEC));
    await tryOut(
      "a sheet",
      12,
      spoiledBytes([sheet]).map((bytes) => Buffer.from(bytes).toString()),
      (text) => readSpecFile(text, "sheet.yaml"),
    );
    await tryOut(
      "a sheet of JSON",
      12,
      spoiledJson([DEMO_SPEC]).map((value) => JSON.stringify(value)),
      (text) => readSpecFile(text, "sheet.json"),
    );
  });

  it("typed words and numbers", async () => {
    const words = [
      "bore",
      "number",
      "two",
      "top",
      "thrust",
      "three",
      "point",
      "eight",
      "seventy five",
      "twelve thou",
      "minus",
      "and a half",
      "over",
      "no",
      "make it",
      "1/64",
      "3.8750",
      "mm",
    ];
    const sentence = fc
      .array(fc.oneof({ weight: 5, arbitrary: fc.constantFrom(...words) }, { weight: 1, arbitrary: trickText }), {
        maxLength: 60,
      })
      .map((parts) => parts.join(" ").slice(0, 2000));
    await tryOut("a sentence", 90, sentence, (text) => parse(text, {}, DEMO_SPEC));
    await tryOut("numbers in a sentence", 90, sentence, readNumbers);
  });

  it("files of unsent entries carried by hand", async () => {
    const head = { format: "thoubook-unsent/2", parcels: [], blobs: [{ sha256: "f".repeat(64), bytes: 3 }] };
    const file = Buffer.from(`${JSON.stringify(head)}\nabc`);
    // The browser's reader refuses with a sentence in a RangeError.
    const reader = (bytes: Uint8Array) =>
      readCarried(new Blob([Buffer.from(bytes)])).catch((error: Error) => {
        expect(error.name).toBe("RangeError");
        expect(error.message).toMatch(/^Expected /);
      });
    await tryOut("a carried file", 600, spoiledBytes([file]), reader);
  });

  it("ranges of bytes", () =>
    tryOut(
      "a range",
      3000,
      fc.tuple(
        fc.oneof(
          trickText,
          fc.tuple(trickText, trickText).map(([a, b]) => `bytes=${a}-${b}`),
        ),
        fc.nat(),
      ),
      ([text, size]) => parseRange(text, size),
    ));

  it("and the slowest is told", () => {
    process.stderr.write(`fuzz: at most ${Math.round(slowest.cpu)} ms of the processor for one input (${slowest.what})\n`);
    expect(slowest.what).not.toBe("");
  });
});
