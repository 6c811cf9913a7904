// Pictures in the real browser against the real service: the live camera with a fake film, handing in files, looking large, drawing.

import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { complaints, newBuild, openBrowser, openShop, type Shop, storedEvents, typed } from "../harness.ts";

const photo = (file: string) => fileURLToPath(new URL(`../../../demo-data/photos/${file}`, import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "film-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A film for the browser's fake camera: the same JPEG a few times over, which is what a motion JPEG file is. */
async function film(name: string, blur?: number): Promise<string> {
  let frame = sharp(photo("cap-marks-3.jpg")).resize(1280, 720, { fit: "cover" });
  if (blur !== undefined) frame = frame.blur(blur);
  const jpeg = await frame.jpeg({ quality: 90 }).toBuffer();
  const file = join(folder, `${name}.mjpeg`);
  writeFileSync(file, Buffer.concat(Array.from({ length: 8 }, () => jpeg)));
  return file;
}
const withFilm = (file: string) => [
  "--use-fake-ui-for-media-stream",
  "--use-fake-device-for-media-stream",
  `--use-file-for-fake-video-capture=${file}`,
];

async function until<T>(look: () => Promise<T | undefined>): Promise<T> {
  for (let tries = 0; tries < 100; tries += 1) {
    const found = await look();
    if (found !== undefined) return found;
    await new Promise((resolve) => setTimeout(resolve, 150));
  }
  throw new Error("Expected it within 15 s");
}
const photosOf = async (shop: Shop, build: string, least: number) =>
  until(async () => {
    const photos = (await storedEvents(shop, build)).filter(({ type }) => type === "photo.taken");
    return photos.length >= least ? photos : undefined;
  });

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
}, 120_000);

describe("the live camera", () => {
  async function takeOne(file: string, words: RegExp) {
    const browser = await openBrowser(withFilm(file));
    const build = await newBuild(shop);
    const page = await browser.newPage();
    const troubles = complaints(page);
    await page.goto(`${shop.url}/#/bench/${build}`);
    await page.getByRole("button", { name: "Take a picture" }).click();
    const seen: string[] = [];
    const line = page.locator(".live-words");
    await until(async () => {
      const text = (await line.textContent()) ?? "";
      if (text !== seen.at(-1)) seen.push(text);
      return words.test(text) ? true : undefined;
    });
    const [event] = await photosOf(shop, build, 1);
    expect(troubles).toEqual([]);
    await browser.close();
    return { seen, data: event?.data as { photo: Record<string, unknown>; place: unknown; step: unknown; proof: unknown } };
  }

  it("counts down, reads the card in the frame, and keeps the picture with the shutter's clock", async () => {
    const { seen, data } = await takeOne(await film("sharp"), /^rod 3, cap marks, sharp, kept$/);
    expect(seen).toEqual(expect.arrayContaining(["three", "two", "one"]));
    expect(data).toMatchObject({ place: { rod: 3 }, step: "teardown", proof: "cap_marks" });
    expect(data.photo).toMatchObject({
      type: "image/jpeg",
      width: 1280,
      height: 720,
      taken: { source: "shutter", zoneKnown: true },
    });
  }, 90_000);

  it("takes a blurred picture again, then keeps the sharpest and says that it is blurred", async () => {
    const { seen, data } = await takeOne(await film("blurred", 14), /blurred, kept$/);
    expect(seen).toContain("blurred, again");
    expect(Number(data.photo.focus)).toBeLessThan(12);
  }, 90_000);
});

describe("pictures from files", () => {
  it("go in several at once, each with its state; a bad one is refused by name and holds up no other", async () => {
    const browser = await openBrowser();
    const build = await newBuild(shop);
    const page = await browser.newPage();
    await page.goto(`${shop.url}/#/place/${build}/cylinder=2`);
    const half = (await readFile(photo("bore-hatch-1.jpg"))).subarray(0, 40_000);
    await page.getByLabel("Hand in pictures").setInputFiles([
      { name: "hatch.jpg", mimeType: "image/jpeg", buffer: await readFile(photo("bore-hatch-2.jpg")) },
      { name: "half.jpg", mimeType: "image/jpeg", buffer: half },
      { name: "nothing.jpg", mimeType: "image/jpeg", buffer: Buffer.alloc(0) },
      { name: "front.jpg", mimeType: "image/jpeg", buffer: await readFile(photo("front-mark-2.jpg")) },
    ]);
    await page.getByText("2 of 4 in the shop").waitFor({ timeout: 20_000 });
    await page
      .locator(".hand-in-list")
      .getByText(/cut off or damaged/)
      .waitFor();
    await page.getByText(/got an empty file/).waitFor();
    const photos = await photosOf(shop, build, 2);
    expect(photos.map(({ data }) => data.place)).toEqual([{ cylinder: 2 }, { cylinder: 2 }]);
    await page.locator(".pictures .picture-button").nth(1).waitFor();
    await browser.close();
  }, 90_000);
});

describe("a card that says another place", () => {
  it("is asked about beside the picture, and files it when that is tapped", async () => {
    const browser = await openBrowser();
    const build = await newBuild(shop);
    const form = new FormData();
    form.append("place", '{"rod":1}');
    form.append("photo", new Blob([await readFile(photo("cap-marks-3.jpg"))]), "p.jpg");
    await fetch(`${shop.url}/api/builds/${build}/photos`, { method: "POST", body: form });
    const page = await browser.newPage();
    await page.goto(`${shop.url}/#/place/${build}/rod=1`);
    await page.locator(".pictures .picture-button").click();
    await page.getByText("The card in the frame says rod 3, the picture is filed under rod 1").waitFor();
    await page.getByRole("button", { name: "File it under rod 3" }).click();
    const filed = await until(async () => (await storedEvents(shop, build)).find(({ type }) => type === "photo.filed"));
    expect(filed.data).toMatchObject({ place: { rod: 3 }, step: "teardown", proof: "cap_marks" });
    await page.getByRole("button", { name: "File it under rod 3" }).waitFor({ state: "detached" });
    await browser.close();
  }, 60_000);
});

describe("looking at pictures", () => {
  let browser: Browser;
  let page: Page;
  let build: string;
  let troubles: string[];
  beforeAll(async () => {
    build = await newBuild(shop);
    await typed(shop, build, ["open bores"]);
    for (const file of ["score-3.jpg", "bore-hatch-3.jpg"]) {
      const form = new FormData();
      form.append("place", '{"cylinder":3}');
      form.append("photo", new Blob([await readFile(photo(file))]), file);
      await fetch(`${shop.url}/api/builds/${build}/photos`, { method: "POST", body: form });
    }
    browser = await openBrowser();
    page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    troubles = complaints(page);
    await page.goto(`${shop.url}/#/place/${build}/cylinder=3`);
    await page.locator(".pictures .picture-button").first().click();
  }, 90_000);

  it("shows the thumbnail at once and the full picture when it has come", async () => {
    const plate = page.locator(".plate").first();
    await plate.locator("img").first().waitFor();
    await plate.locator("img.plate-full:not(.plate-coming)").waitFor();
    const width = await plate.locator("img.plate-full").evaluate((image: HTMLImageElement) => image.naturalWidth);
    expect(width).toBe(1600);
    expect(await page.locator("dialog").textContent()).toContain("by the camera's own clock");
  });

  it("keeps an arrow drawn with the finger as an event of its own, and takes it off again", async () => {
    const before = await storedEvents(shop, build);
    await page.getByRole("button", { name: "Draw an arrow" }).click();
    const face = await page.locator(".plate-face").first().boundingBox();
    if (face === null) throw new Error("Expected a picture to draw on");
    await page.mouse.move(face.x + face.width * 0.25, face.y + face.height * 0.5);
    await page.mouse.down();
    await page.mouse.move(face.x + face.width * 0.6, face.y + face.height * 0.3, { steps: 5 });
    await page.mouse.up();
    const marked = await until(async () => (await storedEvents(shop, build)).find(({ type }) => type === "photo.marked"));
    const photos = before.filter(({ type }) => type === "photo.taken");
    expect(photos.map(({ id }) => id)).toContain(marked.data.target);
    const [mark] = marked.data.marks as Record<string, number>[];
    expect(mark).toMatchObject({ kind: "arrow" });
    expect(mark?.x1).toBeCloseTo(0.25, 1);
    expect(mark?.y2).toBeCloseTo(0.3, 1);
    await page.locator(".plate .marks-over path").first().waitFor();
    await page.getByRole("button", { name: "Take the last one off" }).click();
    await page.locator(".plate .marks-over").waitFor({ state: "detached" });
    // The photo's own event is what it was.
    expect((await storedEvents(shop, build)).filter(({ type }) => type === "photo.taken")).toEqual(photos);
  });

  it("puts two side by side, leafs by key and closes", async () => {
    await page.getByLabel("Beside it").selectOption({ index: 1 });
    expect(await page.locator(".plate").count()).toBe(2);
    await page.getByRole("button", { name: "Draw an arrow" }).focus();
    const title = () => page.locator("dialog").getAttribute("aria-label");
    const [first, heading] = [await title(), page.locator(".light-title").first()];
    const alt = () => page.locator(".plate img.plate-full").first().getAttribute("src");
    const source = await alt();
    await page.keyboard.press("ArrowRight");
    await until(async () => ((await alt()) === source ? undefined : true));
    expect(first).toMatch(/^Picture: /);
    expect(await heading.textContent()).toContain("cylinder 3");
    await page.keyboard.press("Escape");
    await page.locator("dialog").waitFor({ state: "detached" });
    expect(troubles).toEqual([]);
    await browser.close();
  });
});
