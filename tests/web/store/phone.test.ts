// The phone against what a shift brings: 200 entries each time, all of them in the shop exactly once and in order.
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { newBuild, openBrowser, openShop, type Shop, storedEvents, typeLines } from "../harness.ts";

const COUNT = 200;
/** Bytes that a phone with little room gives the page. */
const ROOM = 300_000;
const PHONE = { width: 390, height: 844 };

let shop: Shop;
let browser: Browser;
const folders: string[] = [];
beforeAll(async () => {
  shop = await openShop();
  browser = await openBrowser();
});
afterEach(() => shop.start());
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

/** A folder that is gone at the end. */
function folder(): string {
  const made = mkdtempSync(join(tmpdir(), "thoubook-phone-"));
  folders.push(made);
  return made;
}

const lines = (from: number, to: number, who = "line") => Array.from({ length: to - from }, (_, n) => `note ${who} ${from + n}`);

async function phone(): Promise<BrowserContext> {
  return browser.newContext({ viewport: PHONE });
}

async function openDayBook(context: BrowserContext, build: string, at = shop.url): Promise<Page> {
  const page = await context.newPage();
  await page.goto(`${at}/#/book/${build}`);
  await page.getByLabel("Say it in writing").waitFor();
  return page;
}

/** Words of a build in the shop's order, with the numbers that the device gave them. */
async function wordsIn(build: string): Promise<{ text: string; device: string; deviceSeq: number }[]> {
  const events = (await storedEvents(shop, build)) as unknown as {
    type: string;
    device: string;
    deviceSeq: number;
    data: { text: string };
  }[];
  return events
    .filter(({ type }) => type === "utterance.heard")
    .map(({ data, device, deviceSeq }) => ({ text: data.text, device, deviceSeq }));
}

const texts = async (build: string) => (await wordsIn(build)).map(({ text }) => text);

/** All gone from the device. The shop may have to be found again first, which it is within half a minute. */
async function allSent(page: Page): Promise<void> {
  await page.getByText("all sent").waitFor({ timeout: 90_000 });
}

describe("two hundred entries", () => {
  it("of two tabs of one phone, typed at once while the shop is away for a while", async () => {
    const build = await newBuild(shop);
    const context = await phone();
    const [one, two] = [await openDayBook(context, build), await openDayBook(context, build)];
    const half = COUNT / 2;
    const typing = Promise.all([typeLines(one, lines(0, half, "one")), typeLines(two, lines(0, half, "two"))]);
    await shop.stop();
    expect((await typing).flat().filter((answer) => answer !== "")).toEqual([]);
    await shop.start();
    await Promise.all([allSent(one), allSent(two)]);
    const stored = await wordsIn(build);
    expect(stored).toHaveLength(COUNT);
    for (const who of ["one", "two"])
      expect(stored.map(({ text }) => text).filter((text) => text.includes(who))).toEqual(lines(0, half, who));
    // Both tabs number for one device, and the shop has them in that order.
    const numbers = stored.map(({ deviceSeq }) => deviceSeq);
    expect(new Set(numbers).size).toBe(COUNT);
    expect(numbers).toEqual([...numbers].sort((a, b) => a - b));
    expect(await one.locator(".entries .unsent").count()).toBe(0);
    await context.close();
  });

  it("of two phones, one of them out of reach now and then", async () => {
    const build = await newBuild(shop);
    const contexts = [await phone(), await phone()];
    const [one, two] = await Promise.all(contexts.map((context) => openDayBook(context, build)));
    if (one === undefined || two === undefined) throw new Error("Expected two phones");
    const half = COUNT / 2;
    const away = async () => {
      for (let from = 0; from < half; from += 25) {
        await contexts[0]?.setOffline((from / 25) % 2 === 0);
        expect((await typeLines(one, lines(from, from + 25, "one"))).join("")).toBe("");
      }
      await contexts[0]?.setOffline(false);
    };
    await Promise.all([away(), typeLines(two, lines(0, half, "two"))]);
    await Promise.all([allSent(one), allSent(two)]);
    const stored = await wordsIn(build);
    expect(stored).toHaveLength(COUNT);
    for (const who of ["one", "two"])
      expect(stored.map(({ text }) => text).filter((text) => text.includes(who))).toEqual(lines(0, half, who));
    expect(new Set(stored.map(({ device }) => device)).size).toBe(2);
    for (const page of [one, two]) await page.getByText(`${COUNT + 1} entries`).waitFor();
    for (const context of contexts) await context.close();
  });

  it("of a phone whose clock is a day ahead and is set right in mid-shift", async () => {
    const build = await newBuild(shop);
    const context = await phone();
    await context.addInitScript(() => {
      const shifted = globalThis as unknown as { aheadMs: number };
      shifted.aheadMs = 86_400_000;
      const Real = Date;
      globalThis.Date = new Proxy(Real, {
        construct: (target, args) =>
          args.length === 0 ? new target(Real.now() + shifted.aheadMs) : Reflect.construct(target, args),
        get: (target, name) => (name === "now" ? () => Real.now() + shifted.aheadMs : Reflect.get(target, name)),
      });
    });
    const page = await openDayBook(context, build);
    await typeLines(page, lines(0, COUNT / 2));
    await allSent(page);
    await page.getByText("this clock is 24 h ahead").waitFor();
    await page.evaluate(() => {
      (globalThis as unknown as { aheadMs: number }).aheadMs = 0;
    });
    await typeLines(page, lines(COUNT / 2, COUNT));
    await allSent(page);
    await page.getByText("this clock is 24 h ahead").waitFor({ state: "detached" });
    expect(await texts(build)).toEqual(lines(0, COUNT));
    await context.close();
  });

  it("of a phone that runs full while the shop is away: what is not kept is not said to be", async () => {
    const build = await newBuild(shop);
    // Without a service worker, whose copy of the screens would take all of the little room there is.
    const context = await browser.newContext({ viewport: PHONE, serviceWorkers: "block" });
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await session.send("Storage.overrideQuotaForOrigin", { origin: shop.url, quotaSize: ROOM });
    await page.goto(`${shop.url}/#/book/${build}`);
    await page.getByLabel("Say it in writing").waitFor();
    await shop.stop();
    const long = lines(0, COUNT).map((line) => `${line} ${"of a long day at the vise ".repeat(10)}`.trim());
    const answers = await typeLines(page, long);
    const kept = long.filter((_, n) => answers[n] === "");
    const turnedAway = long.filter((_, n) => answers[n] !== "");
    expect(kept.length).toBeGreaterThan(1);
    expect(turnedAway.length).toBeGreaterThan(0);
    for (const answer of answers)
      if (answer !== "") expect(answer).toMatch(/^Not logged: Expected room on this device, got none/);
    await page.locator(".unsent-alarm").getByText("not kept").waitFor();
    // The words are still in the box, and what was kept outlasts the page.
    expect(await page.locator("#words").inputValue()).toBe(turnedAway.at(-1));
    await session.send("Storage.overrideQuotaForOrigin", { origin: shop.url });
    await shop.start();
    await allSent(page);
    expect((await typeLines(page, turnedAway)).join("")).toBe("");
    await allSent(page);
    expect(await texts(build)).toEqual([...kept, ...turnedAway]);
    await context.close();
  });

  it("of a phone whose shop is put back from an older copy: nothing is dropped, and all is given back", async () => {
    const build = await newBuild(shop);
    const context = await phone();
    const page = await openDayBook(context, build);
    await typeLines(page, lines(0, 80));
    await allSent(page);
    const backup = folder();
    await shop.stop();
    cpSync(shop.data, backup, { recursive: true });
    await shop.start();
    await typeLines(page, lines(80, 180));
    await allSent(page);
    await shop.stop();
    await typeLines(page, lines(180, COUNT));
    await shop.start(backup);
    await page.getByRole("heading", { name: "The shop has lost 100 entries" }).waitFor({ timeout: 60_000 });
    for (let loads = 0; loads < 2; loads += 1) {
      await page.reload();
      await page.getByText(`${COUNT + 1} entries`).waitFor();
      expect(await page.getByText("cannot be shown").count()).toBe(0);
      await page.getByRole("heading", { name: "The shop has lost 100 entries" }).waitFor();
    }
    await page.getByText("the rest is sent").waitFor({ timeout: 60_000 });
    expect(await texts(build)).toEqual([...lines(0, 80), ...lines(180, COUNT)]);
    await page.getByRole("button", { name: "Give them back" }).click();
    await allSent(page);
    expect(await texts(build)).toEqual([...lines(0, 80), ...lines(180, COUNT), ...lines(80, 180)]);
    expect(await page.locator(".held-back").count()).toBe(0);
    await page.reload();
    await page.getByText(`${COUNT + 1} entries`).waitFor();
    expect(await page.locator(".entries .unsent").count()).toBe(0);
    await context.close();
    await shop.stop();
    await shop.start();
  });
});
