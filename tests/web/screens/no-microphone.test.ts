// Clear words when there is no microphone to be had, and typing that works all the same.
import type { Page } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { newBuild, openBrowser, openShop, type Shop } from "../harness.ts";

let shop: Shop;
let build: string;
beforeAll(async () => {
  shop = await openShop();
  build = await newBuild(shop);
});

async function typingWorks(page: Page): Promise<void> {
  await page.getByLabel("Say it in writing").fill("ring gap two top, thirteen thou");
  await page.getByRole("button", { name: "Log it" }).click();
  await page
    .getByText(/thirteen thou, good/)
    .first()
    .waitFor();
}

const start = (page: Page) => page.getByRole("button", { name: /Start listening/ }).click();

describe("without a microphone", () => {
  it("says that plain http has none, and takes typing", async () => {
    // A name that is not this machine's own: the browser then treats plain http as it does in a shop's network. The service
    // answers to its own names only, so the requests are given its name on the way.
    const browser = await openBrowser([`--host-resolver-rules=MAP bench.test 127.0.0.1`]);
    const page = await (await browser.newContext()).newPage();
    await page.route("http://bench.test/**", async (route) => {
      const url = new URL(route.request().url());
      if (url.pathname.endsWith("/live")) return await route.abort();
      const headers = { ...route.request().headers() };
      for (const name of ["origin", "referer", "sec-fetch-site", "host"]) delete headers[name];
      const response = await route.fetch({ url: `${shop.url}${url.pathname}${url.search}`, headers });
      return await route.fulfill({ response });
    });
    await page.goto(`http://bench.test/#/bench/${build}`);
    expect(await page.evaluate(() => isSecureContext)).toBe(false);
    const words = page.getByRole("heading", { name: "No microphone over plain http" });
    await words.waitFor();
    await start(page);
    await words.waitFor();
    await typingWorks(page);
  });

  it("says that it was refused", async () => {
    const browser = await openBrowser(["--deny-permission-prompts"]);
    const page = await (await browser.newContext({ permissions: [], viewport: { width: 390, height: 844 } })).newPage();
    await page.addInitScript(() => {
      navigator.mediaDevices.getUserMedia = async () => {
        throw new DOMException("Permission denied", "NotAllowedError");
      };
    });
    await page.goto(`${shop.url}/#/bench/${build}`);
    await start(page);
    const words = page.getByRole("heading", { name: "The microphone was refused" });
    await words.waitFor();
    // On a phone too they stand where the tap was, above what waits for an answer.
    const [top, waiting] = [await words.boundingBox(), await page.locator(".bench-asks").boundingBox()];
    expect(top?.y).toBeLessThan(844);
    expect(top?.y).toBeLessThan(waiting?.y ?? 0);
    await typingWorks(page);
  });

  it("says that the recogniser did not start", async () => {
    const browser = await openBrowser(["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"]);
    const page = await (await browser.newContext({ serviceWorkers: "block" })).newPage();
    await page.route("**/model/**", (route) => route.abort());
    await page.goto(`${shop.url}/#/bench/${build}`);
    await start(page);
    await page.getByRole("heading", { name: "The recogniser did not start" }).waitFor();
    await typingWorks(page);
  });

  it("covers the screen when the microphone goes dead", async () => {
    const browser = await openBrowser(["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"]);
    const page = await (await browser.newContext()).newPage();
    await page.addInitScript(() => {
      const ask = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
      navigator.mediaDevices.getUserMedia = async (wanted) => {
        const stream = await ask(wanted);
        Object.assign(globalThis, { lastStream: stream });
        return stream;
      };
      const Context = AudioContext;
      globalThis.AudioContext = class extends Context {
        constructor(options?: AudioContextOptions) {
          super(options);
          Object.assign(globalThis, { lastContext: this });
        }
      };
    });
    await page.goto(`${shop.url}/#/bench/${build}`);
    await start(page);
    await page.locator(".switch-armed").waitFor();
    // As after a phone call: the context stops and no frame comes any more.
    await page.evaluate(() => (globalThis as unknown as { lastContext: AudioContext }).lastContext.suspend());
    await page.getByRole("alertdialog", { name: "Mic dead" }).waitFor({ timeout: 4000 });
    await page.getByRole("button", { name: "Start it again", exact: true }).click();
    await page.locator(".switch-armed").waitFor();
  });

  it("listens and leaves be by key, as a foot switch sends it", async () => {
    const browser = await openBrowser(["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"]);
    const page = await (await browser.newContext()).newPage();
    await page.goto(`${shop.url}/#/bench/${build}`);
    await start(page);
    await page.locator(".switch-armed").waitFor();
    await page.locator("body").press("F8");
    await page.locator(".switch-paused").waitFor();
    await page.locator("body").press("F8");
    await page.locator(".switch-armed").waitFor();
  });
});
