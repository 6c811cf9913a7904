// What a shift does to the phone besides: a browser that dies, a shop on the wrong folder, an entry it fails at, newer screens,
// a pass that only looks. Each with what the page says, and what the shop has at the end.
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import sharp from "sharp";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { CHROMIUM_ARGS, findChromium } from "../../support/chromium.ts";
import { axeSays } from "../axe.ts";
import { type Front, openFront } from "../front.ts";
import { newBuild, openBrowser, openShop, type Shop, storedEvents, typeLines } from "../harness.ts";

const COUNT = 200;
const FEWER = 60;
const PHONE = { width: 390, height: 844 };

let shop: Shop;
let front: Front;
let browser: Browser;
const atEnd: (() => unknown)[] = [];
beforeAll(async () => {
  shop = await openShop();
  front = await openFront(shop);
  browser = await openBrowser();
});
afterEach(async () => {
  front.spoil = () => false;
  await shop.start();
});
afterAll(async () => {
  for (const close of atEnd.reverse()) await close();
  await front.close();
});

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), "thoubook-shift-"));
  atEnd.push(() => rmSync(made, { recursive: true, force: true }));
  return made;
}

const lines = (from: number, to: number) => Array.from({ length: to - from }, (_, n) => `note line ${from + n}`);

async function texts(build: string): Promise<string[]> {
  const events = await storedEvents(shop, build);
  return events.filter(({ type }) => type === "utterance.heard").map(({ data }) => String(data.text));
}

async function openDayBook(build: string, at = front.url): Promise<Page> {
  const page = await (await browser.newContext({ viewport: PHONE, bypassCSP: true })).newPage();
  await page.goto(`${at}/#/book/${build}`);
  await page.getByText("shop in reach").waitFor();
  return page;
}

const allSent = (page: Page) => page.getByText("all sent").waitFor({ timeout: 90_000 });

describe("a browser that is killed", () => {
  async function launch(profile: string): Promise<{ child: ChildProcess; page: Page }> {
    const path = findChromium();
    if (path === undefined) throw new Error("Expected a Chromium, got none");
    const args = [...CHROMIUM_ARGS, "--headless", `--user-data-dir=${profile}`, "--remote-debugging-port=0", "about:blank"];
    const child = spawn(path, args, { stdio: ["ignore", "ignore", "pipe"] });
    atEnd.push(() => child.kill("SIGKILL"));
    const address = await new Promise<string>((resolve, reject) => {
      let said = "";
      child.stderr?.on("data", (chunk) => {
        said += String(chunk);
        const found = /ws:\/\/\S+/.exec(said);
        if (found) resolve(found[0]);
      });
      child.on("exit", () => reject(new Error(`Expected the browser to run, got: ${said}`)));
    });
    const [context] = (await chromium.connectOverCDP(address)).contexts();
    if (context === undefined) throw new Error("Expected a window of the browser, got none");
    return { child, page: await context.newPage() };
  }

  it("has kept every entry that the page said it had, and sends them once and in order", async () => {
    const build = await newBuild(shop);
    const profile = folder();
    const first = await launch(profile);
    await first.page.goto(`${shop.url}/#/book/${build}`);
    await first.page.getByText("shop in reach").waitFor();
    const told: string[] = [];
    const gone = new Promise((resolve) => first.child.once("exit", resolve));
    first.page.on("console", (message) => {
      if (!message.text().startsWith("logged ")) return;
      told.push(message.text().slice("logged ".length));
      if (told.length === COUNT - 20) first.child.kill("SIGKILL");
    });
    await first.page.evaluate(() => {
      // The box is emptied once the page has said what became of the words.
      const box = document.querySelector<HTMLInputElement>("#words");
      let last = "";
      setInterval(() => {
        if (box === null || box.value === last) return;
        // biome-ignore lint/suspicious/noConsole: the page's console is what outlasts the page here
        if (box.value === "") console.info(`logged ${last}`);
        last = box.value;
      }, 0);
    });
    await shop.stop();
    await typeLines(first.page, lines(0, COUNT)).catch(() => undefined);
    await gone;
    await shop.start();
    const second = await launch(profile);
    await second.page.goto(`${shop.url}/#/book/${build}`);
    await second.page.getByText("shop in reach").waitFor();
    await allSent(second.page);
    const stored = await texts(build);
    expect(told.length).toBeGreaterThanOrEqual(COUNT - 60);
    // One more may have been kept than could be told.
    expect(stored).toEqual(lines(0, stored.length));
    for (const line of told) expect(stored).toContain(line);
    second.child.kill("SIGKILL");
  });
});

describe("a shop started on another folder", () => {
  it("gets nothing and spoils nothing: its refusals count for nothing, and all goes to the right one", async () => {
    const build = await newBuild(shop);
    const page = await openDayBook(build);
    await typeLines(page, lines(0, 20));
    await allSent(page);
    await shop.stop();
    await typeLines(page, lines(20, FEWER));
    await shop.start(folder());
    await page.getByRole("heading", { name: "Another shop’s book answers at this address" }).waitFor({ timeout: 60_000 });
    await page.reload();
    await page.getByText(`${FEWER + 1} entries`).waitFor();
    expect(await page.getByText("cannot be shown").count()).toBe(0);
    await page.getByText(`${2 * (FEWER - 20)} unsent`).waitFor();
    const builds = (await (await fetch(`${shop.url}/api/builds`)).json()) as { builds: unknown[] };
    expect(builds.builds).toEqual([]);
    await shop.stop();
    await shop.start();
    await allSent(page);
    expect(await texts(build)).toEqual(lines(0, FEWER));
    expect(await page.locator(".held-back").count()).toBe(0);
  });
});

describe("an entry that the shop fails at", () => {
  it("is set aside and told, holds up none behind it, and goes when it is tried again", async () => {
    const build = await newBuild(shop);
    const page = await openDayBook(build);
    await page
      .locator("input[type=file]")
      .first()
      .setInputFiles({
        name: "strip.png",
        mimeType: "image/png",
        buffer: await sharp({ create: { width: 20_000, height: 1, channels: 3, background: "#777777" } })
          .png()
          .toBuffer(),
      });
    await page.getByText("1 of 1 in the shop").waitFor();
    front.spoil = ({ method, url }, response) => {
      if (method !== "POST" || url?.endsWith("/photos") !== true) return false;
      response.writeHead(500, { "content-type": "application/json" });
      response.end(JSON.stringify({ code: "internal", message: "Expected to answer this request, got a fault of the service" }));
      return true;
    };
    await page
      .locator("input[type=file]")
      .first()
      .setInputFiles({
        name: "bad.png",
        mimeType: "image/png",
        buffer: await sharp({ create: { width: 40, height: 30, channels: 3, background: "#335577" } })
          .png()
          .toBuffer(),
      });
    await page.getByText("kept on this device").waitFor();
    await typeLines(page, lines(0, FEWER));
    await page.getByText("the rest is sent").waitFor({ timeout: 60_000 });
    expect(await texts(build)).toEqual(lines(0, FEWER));
    // Folded away: nothing has to be done about it.
    await page.getByRole("heading", { name: "Set aside: 1 entry" }).click();
    front.spoil = () => false;
    await page.getByRole("button", { name: "Try again now" }).click();
    await allSent(page);
    expect((await storedEvents(shop, build)).filter(({ type }) => type === "photo.taken")).toHaveLength(2);
  });

  it("and refuses stays on screen, is saved with its picture, taken in elsewhere, and arrives", async () => {
    const build = await newBuild(shop);
    const page = await openDayBook(build);
    front.spoil = ({ method, url }, response) => {
      if (method !== "POST" || url?.endsWith("/photos") !== true) return false;
      response.writeHead(422, { "content-type": "application/json" });
      response.end(
        JSON.stringify({ code: "too_slow", message: "Expected a picture that opens within 20 s, got one that takes longer." }),
      );
      return true;
    };
    const buffer = await sharp({ create: { width: 400, height: 300, channels: 3, background: "#775533" } })
      .jpeg()
      .toBuffer();
    await page.locator("input[type=file]").first().setInputFiles({ name: "slow.jpg", mimeType: "image/jpeg", buffer });
    const held = page.locator(".held-refused");
    await held.getByText("The shop refused 1 entry").waitFor();
    await page.reload();
    await held.getByText(/opens within 20 s/).waitFor();
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await axeSays(page)).toEqual([]);
    }
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      held.getByRole("button", { name: "Save to a file" }).click(),
    ]);
    const file = join(folder(), "unsent-entries.thou");
    await download.saveAs(file);
    await held.getByRole("button", { name: "Let them go here" }).click();
    await held.getByRole("button", { name: "Yes, the file is enough" }).click();
    await held.waitFor({ state: "detached" });
    const other = await (await browser.newContext({ viewport: PHONE })).newPage();
    await other.goto(`${shop.url}/#/shelf`);
    await other.locator(".take-in input").setInputFiles(file);
    await other.getByText("Taken in: 1 of 1").waitFor();
    await allSent(other);
    const photos = (await storedEvents(shop, build)).filter(({ type }) => type === "photo.taken");
    expect(photos.map(({ data }) => (data.photo as { bytes: number }).bytes)).toEqual([buffer.length]);
  });
});

describe("newer screens", () => {
  it("taken up in one tab leave another as it is, its half-typed words and its entries too", async () => {
    const build = await newBuild(shop);
    const context = await browser.newContext({ viewport: PHONE });
    const open = async () => {
      const page = await context.newPage();
      await page.goto(`${front.url}/#/book/${build}`);
      await page.getByText("shop in reach").waitFor();
      return page;
    };
    const [one, two] = [await open(), await open()];
    await one.evaluate(() => navigator.serviceWorker.ready);
    // A page is only in the worker's hands once it was loaded by it.
    for (const page of [one, two]) {
      await page.reload();
      await page.locator("#words").waitFor();
    }
    await typeLines(two, lines(0, COUNT / 2));
    await two.getByLabel("Say it in writing").fill("ring gap two top, twe");
    front.workerTail = "\n// a newer version\n";
    await one.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.update());
    await two.getByText("The shop has newer screens").waitFor();
    await two.evaluate(() => Object.assign(window, { sameWindow: true }));
    await Promise.all([one.waitForEvent("load"), one.getByRole("button", { name: "Take them up" }).click()]);
    await two.getByText("Newer screens were taken up in another window").waitFor();
    expect(await two.evaluate(() => "sameWindow" in window)).toBe(true);
    expect(await two.getByLabel("Say it in writing").inputValue()).toBe("ring gap two top, twe");
    await typeLines(two, lines(COUNT / 2, COUNT));
    await two.getByLabel("Say it in writing").fill("ring gap two top, twe");
    await two.getByRole("button", { name: "Load it again" }).click();
    await two.getByText(`${COUNT + 1} entries`).waitFor();
    expect(await two.getByLabel("Say it in writing").inputValue()).toBe("ring gap two top, twe");
    await allSent(two);
    expect(await texts(build)).toEqual(lines(0, COUNT));
    await context.close();
  });

  it("of a shop that answers with more than it used to are not needed to deliver to it", async () => {
    const build = await newBuild(shop);
    const page = await openDayBook(build);
    await page.route("**/events", async (route) => {
      const answer = await route.fetch();
      await route.fulfill({ response: answer, json: { ...(await answer.json()), since: "a later version" } });
    });
    await typeLines(page, lines(0, 3));
    await allSent(page);
    expect(await texts(build)).toEqual(lines(0, 3));
  });
});

describe("a pass that only looks", () => {
  it("takes no words that would never go", async () => {
    const build = await newBuild(shop);
    front.spoil = ({ url }, response) => {
      if (url !== "/api/me") return false;
      response.writeHead(200, { "content-type": "application/json" });
      response.end(JSON.stringify({ role: "viewer", device: "pass-1", name: "Customer" }));
      return true;
    };
    const page = await (await browser.newContext({ viewport: PHONE })).newPage();
    await page.goto(`${front.url}/#/book/${build}`);
    await page.getByText("lets this device look and not write").waitFor();
    expect(await page.getByLabel("Say it in writing").count()).toBe(0);
    expect(await page.getByRole("link", { name: "At the vise" }).count()).toBe(0);
    await page.goto(`${front.url}/#/bench/${build}`);
    await page.getByText("lets this device look and not write").waitFor();
    for (const pageName of ["gauges", "sheet", "record", "place"]) {
      await page.goto(`${front.url}/#/${pageName}/${build}`);
      await page.getByRole("heading").first().waitFor();
      expect(await page.locator("#page form").count(), pageName).toBe(0);
    }
  });
});
