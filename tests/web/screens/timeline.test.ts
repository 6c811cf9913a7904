// The day book in a real browser before the real service: words typed there become readings with verdicts and arithmetic.
import type { Browser, Page } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { complaints, newBuild, openBrowser, openShop, type Shop, storedEvents, typed } from "../harness.ts";

let shop: Shop;
let browser: Browser;
beforeAll(async () => {
  shop = await openShop();
  browser = await openBrowser();
});

const PHONE = { width: 390, height: 844 };

async function openPage(hash: string, viewport = PHONE): Promise<{ page: Page; complained: string[] }> {
  const context = await browser.newContext({ viewport });
  const page = await context.newPage();
  const complained = complaints(page);
  await page.goto(`${shop.url}/${hash}`);
  return { page, complained };
}

async function sayInWriting(page: Page, words: string): Promise<string> {
  await page.getByLabel("Say it in writing").fill(words);
  await page.getByRole("button", { name: "Log it" }).click();
  await page.waitForFunction(() => document.querySelector<HTMLInputElement>("#words")?.value === "");
  return (await page.locator(".answer").textContent()) ?? "";
}

describe("the day book", () => {
  it("opens a build from the shelf and lays it out without scrolling sideways", async () => {
    const build = await newBuild(shop, "Shelf engine");
    const { page, complained } = await openPage("");
    await page.getByRole("link", { name: /Shelf engine/ }).click();
    await page.getByRole("heading", { name: "Shelf engine" }).waitFor();
    expect(page.url()).toContain(build);
    for (const width of [390, 1440]) {
      await page.setViewportSize({ width, height: 844 });
      const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      expect(over).toBeLessThanOrEqual(0);
    }
    expect(complained).toEqual([]);
  });

  it("reads typed words, shows the figure with its verdict and arithmetic, and carries them to the shop", async () => {
    const build = await newBuild(shop);
    const { page, complained } = await openPage(`#/book/${build}`);
    const answer = await sayInWriting(page, "ring gap two top, thirteen thou");
    expect(answer).toContain("thirteen thou, good");
    const entry = page.locator(".entry-said").first();
    expect(await entry.locator(".heard").textContent()).toBe("ring gap two top, thirteen thou");
    expect(await entry.locator(".digits").textContent()).toBe(".013");
    expect(await entry.locator(".mark").textContent()).toBe("good");
    expect(await entry.locator(".why").textContent()).toMatch(/within 0\.01\d+ to 0\.01\d+ in/);
    await page.getByText("all sent").waitFor();
    const events = await storedEvents(shop, build);
    expect(events.map(({ type }) => type)).toEqual(["build.opened", "utterance.heard", "reading.taken"]);
    expect(events[2]?.data.reading).toMatchObject({ quantity: "ring_end_gap", value: 0.013, digits: "0.013" });
    expect(complained).toEqual([]);
  });

  it("shows the correction in place of the figure and what it was, and strikes", async () => {
    const build = await newBuild(shop);
    const { page } = await openPage(`#/book/${build}`);
    await sayInWriting(page, "ring gap two top, nine thou");
    const first = page.locator(".entry-said").last();
    expect(await first.locator(".mark").textContent()).toBe("out");
    await sayInWriting(page, "no, make it thirteen thou");
    expect(await first.locator(".digits").textContent()).toBe(".013");
    expect(await first.locator(".mark").textContent()).toBe("good");
    expect(await first.locator(".why s").textContent()).toContain(".009");
    await sayInWriting(page, "scratch that");
    expect(await first.locator(".mark").textContent()).toBe("struck");
  });

  it("leaves talk out of the book and says so", async () => {
    const build = await newBuild(shop);
    const { page } = await openPage(`#/book/${build}`);
    await page.getByLabel("Say it in writing").fill("hand me that rag would you");
    await page.getByRole("button", { name: "Log it" }).click();
    await page.getByText(/Nothing read there/).waitFor();
    expect((await storedEvents(shop, build)).map(({ type }) => type)).toEqual(["build.opened"]);
  });

  it("sieves by cylinder and by step", async () => {
    const build = await newBuild(shop);
    await typed(shop, build, ["open rings", "ring gap two top, thirteen thou", "ring gap three top, thirteen thou"]);
    await typed(shop, build, ["open main bearings", "main two clearance, two thou"]);
    const { page } = await openPage(`#/book/${build}`);
    await page.getByRole("button", { name: "cylinder 3" }).click();
    await page.getByText(/1 of \d+ entries/).waitFor();
    expect(await page.locator(".entry .heard").allTextContents()).toEqual(["ring gap three top, thirteen thou"]);
    await page.getByRole("button", { name: "all", exact: true }).click();
    await page.getByLabel("Step").selectOption({ label: "Main bearings" });
    await page.getByText(/\d of \d+ entries/).waitFor();
    const heard = await page.locator(".entry .heard").allTextContents();
    expect(heard).toContain("main two clearance, two thou");
    expect(heard).not.toContain("ring gap two top, thirteen thou");
    // The step is open: what it still wants is said.
    expect(await page.locator(".standing .missing").first().textContent()).toMatch(/main/i);
  });

  it("shows at once what another device logs", async () => {
    const build = await newBuild(shop);
    const { page } = await openPage(`#/book/${build}`);
    await page.getByText("shop in reach").waitFor();
    await typed(shop, build, ["crank end float, six thou"], "other-phone");
    await page.getByText("crank end float, six thou").waitFor({ timeout: 5000 });
  });

  it("keeps working with the shop stopped, survives a reload, and delivers once when it is back", async () => {
    const build = await newBuild(shop);
    const { page } = await openPage(`#/book/${build}`);
    await page.getByText("shop in reach").waitFor();
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await shop.stop();
    await sayInWriting(page, "ring gap two top, thirteen thou");
    await sayInWriting(page, "ring gap three top, nine thou");
    await page.getByText(/unsent, oldest 0 min/).waitFor();
    // The screens come from the service worker, the build from this device.
    await page.reload();
    await page.getByText("ring gap three top, nine thou").waitFor();
    expect(await page.locator(".entry .mark").allTextContents()).toEqual(["out", "good"]);
    await shop.start();
    await page.getByText("all sent").waitFor({ timeout: 30_000 });
    const events = await storedEvents(shop, build);
    expect(events.map(({ type }) => type)).toEqual([
      "build.opened",
      "utterance.heard",
      "reading.taken",
      "utterance.heard",
      "reading.taken",
    ]);
  });
});
