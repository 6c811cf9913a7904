// Every screen through axe-core, by day and by night, and what axe cannot see: sizes, zoom, motion.
import type { Browser } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { axeSays } from "../axe.ts";
import { newBuild, openBrowser, openShop, type Shop, typed } from "../harness.ts";

let shop: Shop;
let browser: Browser;
let build: string;
beforeAll(async () => {
  shop = await openShop();
  browser = await openBrowser();
  build = await newBuild(shop);
  await typed(shop, build, [
    "open rings",
    "ring gap two top, nine thou",
    "ring gap three top, thirteen thou",
    "scratch that",
    "pin fit four, four tenths",
    "bore one top thrust, three eight eight three two",
    "note, small nick on the cheek",
    "open main bearings",
    "main two clearance, two thou",
  ]);
});

const PAGES = ["shelf", "new", "voice", "book", "bench", "place", "bores", "whatif", "sheet", "record", "gauges"] as const;

async function open(hash: string, options: Parameters<Browser["newContext"]>[0]) {
  const context = await browser.newContext({ ...options, bypassCSP: true });
  const page = await context.newPage();
  await page.goto(`${shop.url}/#/${hash}`);
  await page.locator("h1").first().waitFor();
  return page;
}

describe.each(["light", "dark"] as const)("screens by %s", (colorScheme) => {
  it.each(PAGES)("%s has nothing for axe to complain of, contrast 7:1 included", async (name) => {
    const hash = ["shelf", "new", "voice"].includes(name) ? name : `${name}/${build}`;
    const page = await open(hash, { viewport: { width: 390, height: 844 }, colorScheme });
    expect(await axeSays(page)).toEqual([]);
    await page.context().close();
  });
});

describe("the bench screen", () => {
  it("has targets of 96 px and figures of 64 px or more", async () => {
    const page = await open(`bench/${build}`, { viewport: { width: 390, height: 844 } });
    await page.getByLabel("Say it in writing").fill("ring gap two top, thirteen thou");
    await page.getByRole("button", { name: "Log it" }).click();
    await page.locator(".glance-figure").waitFor();
    const small = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>("button, a, input, select")]
        .map((element) => ({ text: element.textContent, box: element.getBoundingClientRect() }))
        .filter(({ box }) => box.width > 0 && (box.height < 96 || box.width < 96))
        .map(({ text, box }) => `${text} ${box.width}x${box.height}`),
    );
    expect(small).toEqual([]);
    const size = await page
      .locator(".glance-figure .digits")
      .evaluate((element) => Number.parseFloat(getComputedStyle(element).fontSize));
    expect(size).toBeGreaterThanOrEqual(64);
    await page.context().close();
  });

  it("works at 200 % zoom: half the width, nothing cut off sideways", async () => {
    for (const hash of [`bench/${build}`, `book/${build}`]) {
      const page = await open(hash, { viewport: { width: 320, height: 450 }, reducedMotion: "reduce" });
      const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      expect(over, hash).toBeLessThanOrEqual(0);
      await page.context().close();
    }
  });
});
