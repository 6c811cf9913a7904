// A picture asked for by voice: synthesised words into the fake microphone, a film with a tag card before the fake camera.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import sharp from "sharp";
import { afterAll, describe, expect, it } from "vitest";
import { newBuild, openBrowser, openShop, storedEvents } from "../harness.ts";
import { microphoneArgs, spokenWav } from "../sound.ts";

const folder = mkdtempSync(join(tmpdir(), "film-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function film(): Promise<string> {
  const picture = fileURLToPath(new URL("../../../demo-data/photos/cap-marks-3.jpg", import.meta.url));
  const jpeg = await sharp(picture).resize(1280, 720, { fit: "cover" }).jpeg({ quality: 90 }).toBuffer();
  const file = join(folder, "rod-three.mjpeg");
  writeFileSync(file, Buffer.concat(Array.from({ length: 8 }, () => jpeg)));
  return file;
}

// Sound runs in real time: on a busy machine a sentence can be lost on its way into the browser, once.
describe("a picture asked for by voice", { timeout: 150_000, retry: 1 }, () => {
  it("is counted down, taken and filed as said; the card that says another rod is asked about", async () => {
    const shop = await openShop();
    const { path, seconds } = await spokenWav(["take a picture of rod two"]);
    const camera = `--use-file-for-fake-video-capture=${await film()}`;
    const browser = await openBrowser([...microphoneArgs(path), camera]);
    const build = await newBuild(shop);
    const page = await browser.newPage();
    await page.goto(`${shop.url}/#/bench/${build}`);
    await page.getByRole("button", { name: /Start listening/ }).click();
    await page.locator(".switch-armed").waitFor();
    await page.locator(".live-words", { hasText: "three" }).waitFor({ timeout: seconds * 1000 + 15_000 });
    await page.locator(".live-words", { hasText: /^rod 2, cap marks, sharp, kept$/ }).waitFor({ timeout: 30_000 });
    let types: string[] = [];
    for (let tries = 0; tries < 60 && !types.includes("question.asked"); tries += 1) {
      await page.waitForTimeout(250);
      types = (await storedEvents(shop, build)).map(({ type }) => type);
    }
    const events = await storedEvents(shop, build);
    const taken = events.find(({ type }) => type === "photo.taken");
    expect(taken?.data).toMatchObject({
      place: { rod: 2 },
      photo: { card: { place: { rod: 3 } }, taken: { source: "shutter" } },
    });
    const asked = events.find(({ type }) => type === "question.asked");
    expect(asked?.data.question).toMatchObject({ code: "card_disagrees", options: ["rod 3", "rod 2"] });
    await browser.close();
  });
});
