// Sentences through Chromium's fake microphone into the real bench screen: heard in the browser, logged, carried to the shop.
// In real time. The voice is synthesised, and says what the ear is sure of in it: this proves the path from the microphone to
// the shop, not how well people are heard; that is what the hearing benchmark is for.
import type { Browser, Page } from "playwright-core";
import { beforeAll, describe, expect, it, onTestFinished } from "vitest";
import { newBuild, openBrowser, openShop, type Shop, storedEvents } from "../harness.ts";
import { microphoneArgs, spokenWav } from "../sound.ts";

/**
 * What is said, and the figure and verdict that must stand at the end. The last sentence corrects the one before it.
 */
const SENTENCES = [
  "main two clearance, two thou",
  "ring gap number three top, twenty one thou",
  "bore two bottom thrust, three eight seven five two",
  "valve lash number one intake, nine thou",
  "rod two clearance, two thou",
  "crank end float, nine thou",
  "scratch that make it six thou",
];
const STANDING = [
  [".002", "good"],
  [".021", "out"],
  ["3.8752", "good"],
  [".009", "good"],
  [".002", "good"],
  [".006", "good"],
];

let shop: Shop;
let wav: { path: string; seconds: number };
beforeAll(async () => {
  shop = await openShop();
  wav = await spokenWav(SENTENCES);
});

/** A browser that hears this, closed after its test: an open page goes on listening. */
async function openEar(sound: string): Promise<Browser> {
  const browser = await openBrowser(microphoneArgs(sound));
  onTestFinished(() => browser.close());
  return browser;
}

async function listen(build: string, sound = wav.path): Promise<Page> {
  const browser = await openEar(sound);
  const page = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();
  await page.goto(`${shop.url}/#/bench/${build}`);
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
  });
  return page;
}

/** Readings of the day book with figure and verdict, oldest first. */
async function readingsOnPage(page: Page, build: string): Promise<string[][]> {
  await page.goto(`${shop.url}/#/book/${build}`);
  await page.locator(".entry-said").first().waitFor();
  const rows = await page
    .locator(".reading")
    .evaluateAll((elements) =>
      elements.map((element) => [
        element.querySelector(".digits")?.textContent ?? "",
        element.querySelector(".mark")?.textContent ?? "",
      ]),
    );
  return rows.reverse();
}

/** What the day book says was heard, to be read when a figure is not what was said. */
const heardLines = async (page: Page) => (await page.locator(".entry-said .heard").allTextContents()).reverse().join(" | ");

const start = (page: Page) => page.getByRole("button", { name: /Start listening/ }).click();
/** Until all has been said and as many readings stand; what is missing then is shown by what the test expects. */
async function spoken(page: Page, seconds: number, count: number): Promise<void> {
  const done = (wanted: number) => performance.getEntriesByName("reading logged").length >= wanted;
  await page.waitForFunction(done, count, { timeout: seconds * 1000 + 40_000 }).catch(() => undefined);
}
const took = (page: Page, name: string) =>
  page.evaluate((of) => performance.getEntriesByName(of).map(({ duration }) => Math.round(duration)), name);
const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

/** Paragraphs and sections of the bench whose boxes lie over one another. */
const overlaps = (page: Page) =>
  page.evaluate(() => {
    const boxes = [...document.querySelectorAll(".bench p, .bench button, .bench select, .bench input")]
      .map((element) => ({ text: element.textContent ?? "", element, box: element.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 1 && box.height > 1);
    return boxes.flatMap((one, index) =>
      boxes
        .slice(index + 1)
        .filter((other) => !one.element.contains(other.element) && !other.element.contains(one.element))
        .filter(
          ({ box }) =>
            box.left < one.box.right - 1 &&
            one.box.left < box.right - 1 &&
            box.top < one.box.bottom - 1 &&
            one.box.top < box.bottom - 1,
        )
        .map((other) => `${one.text} | ${other.text}`),
    );
  });

describe("listening at the vise", { timeout: 260_000 }, () => {
  it("turns spoken sentences into readings with verdicts, one after a spoken correction, each with its sound kept", async () => {
    const build = await newBuild(shop);
    const page = await listen(build);
    await start(page);
    await page.locator(".switch-armed").waitFor();
    await spoken(page, wav.seconds, SENTENCES.length);
    const shown = await took(page, "reading shown");
    const logged = await took(page, "reading logged");
    const line = (what: string, values: readonly number[]) =>
      `${what}: median ${median(values)} ms of ${values.length} (${values.join(", ")})\n`;
    process.stdout.write(
      line("end of sentence to its figure and verdict on the screen", shown) +
        line("end of sentence to its reading logged, after the quiet that ends a sentence", logged) +
        line("hearing one sentence in full", await took(page, "hear")),
    );
    expect(await readingsOnPage(page, build), await heardLines(page)).toEqual(STANDING);
    await page.getByText("all sent").waitFor();
    const events = await storedEvents(shop, build);
    const clips = events.flatMap(({ type, data }) => (type === "utterance.heard" ? [String(data.clip)] : []));
    expect(clips).toHaveLength(SENTENCES.length);
    const sound = await fetch(`${shop.url}/api/blobs/${clips[0]}`);
    expect(sound.headers.get("content-type")).toBe("audio/wav");
    expect((await sound.arrayBuffer()).byteLength).toBeGreaterThan(30_000);
    expect(logged).toHaveLength(SENTENCES.length);
  });

  it("does the same with the shop stopped, and delivers each once when it is started", async () => {
    const build = await newBuild(shop);
    const page = await listen(build);
    await page.locator(".switch").waitFor();
    await shop.stop();
    await start(page);
    await page.locator(".switch-armed").waitFor();
    await spoken(page, wav.seconds, SENTENCES.length);
    expect(await readingsOnPage(page, build), await heardLines(page)).toEqual(STANDING);
    await page.getByText(/unsent, oldest/).waitFor();
    await shop.start();
    await page.getByText("all sent").waitFor({ timeout: 30_000 });
    const events = await storedEvents(shop, build);
    const taken = events.filter(({ type }) => type === "reading.taken" || type === "reading.corrected");
    expect(taken).toHaveLength(SENTENCES.length);
    expect(new Set(events.map(({ id }) => id)).size).toBe(events.length);
  });

  it("hears what is said while the ear is still starting", async () => {
    await shop.start();
    const early = await spokenWav(["main two clearance, two thou"]);
    const browser = await openEar(early.path);
    const page = await (await browser.newContext({ viewport: { width: 390, height: 844 }, serviceWorkers: "block" })).newPage();
    // The model is not there before somebody speaks.
    const hearsYou = page.getByText("Hearing you").waitFor();
    await page.route("**/model/**", async (route) => {
      await hearsYou;
      await route.continue();
    });
    // A browser that cannot keep the screen on says so, in a line of its own.
    await page.addInitScript(() => Object.defineProperty(navigator, "wakeLock", { value: undefined }));
    await page.goto(`${shop.url}/#/bench/${await newBuild(shop)}`);
    await start(page);
    await page.getByText("loading the ear").waitFor();
    await spoken(page, early.seconds, 1);
    expect(await page.locator(".glance .digits").allTextContents()).toEqual([".002"]);
    await page.getByText("The screen may go dark").waitFor();
    await page.setViewportSize({ width: 1280, height: 800 });
    expect(await overlaps(page)).toEqual([]);
  });

  it("files a figure under what was said before a look at the instrument", async () => {
    await shop.start();
    const halves = ["bore two bottom thrust", "three eight seven five two", "compression four", "sixty two pounds"];
    // A look at the instrument ends the first half: the answer to that must not fall on the second.
    const look = await spokenWav(halves, [1.5, 3]);
    const build = await newBuild(shop);
    const page = await listen(build, look.path);
    await start(page);
    await spoken(page, look.seconds, halves.length / 2);
    expect(await readingsOnPage(page, build), await heardLines(page)).toEqual([
      ["3.8752", "good"],
      ["62", "good"],
    ]);
    expect(await heardLines(page)).toBe(halves.join(" | "));
    await page.getByText("all sent").waitFor();
    const taken = (await storedEvents(shop, build)).filter(({ type }) => type === "reading.taken");
    expect(taken.map(({ data }) => data.reading)).toMatchObject([
      { quantity: "bore_diameter", place: { cylinder: 2, depth: "bottom", axis: "thrust" } },
      { quantity: "compression_pressure", place: { cylinder: 4 } },
    ]);
  });
});
