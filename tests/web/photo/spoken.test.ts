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
  it("is counted down, taken, and filed by the card in the frame", async () => {
    const shop = await openShop();
    const { path, seconds } = await spokenWav(["take a picture"]);
    const camera = `--use-file-for-fake-video-capture=${await film()}`;
    const browser = await openBrowser([...microphoneArgs(path), camera]);
    const build = await newBuild(shop);
    const page = await browser.newPage();
    await page.goto(`${shop.url}/#/bench/${build}`);
    await page.getByRole("button", { name: /Start listening/ }).click();
    await page.locator(".switch-armed").waitFor();
    await page.locator(".live-words", { hasText: "three" }).waitFor({ timeout: seconds * 1000 + 15_000 });
    await page.locator(".live-words", { hasText: /^rod 3, cap marks, sharp, kept$/ }).waitFor({ timeout: 30_000 });
    let taken: Awaited<ReturnType<typeof storedEvents>>[number] | undefined;
    for (let tries = 0; tries < 60 && taken === undefined; tries += 1) {
      await page.waitForTimeout(250);
      taken = (await storedEvents(shop, build)).find(({ type }) => type === "photo.taken");
    }
    expect(taken?.data).toMatchObject({
      place: { rod: 3 },
      step: "teardown",
      proof: "cap_marks",
      photo: { taken: { source: "shutter" } },
    });
    await browser.close();
  });
});
