// A real browser at the vise: over HTTPS with the shop's authority trusted it has microphone, service worker and wake lock;
// without that trust it is refused; over plain http it is told what is missing.
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { cp, mkdir, rm } from "node:fs/promises";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { expect, it } from "vitest";
import { atEnd, tempDir } from "../helper.ts";
import { ADDRESS, bootLan, NAME, type TestLan } from "./lan-helper.ts";

const WEB = join(import.meta.dirname, "../../../dist/web");
const CHROMIUM = process.env.CHROMIUM ?? "/usr/bin/chromium";

/** A browser with a home of its own; with `ca` its certificate store trusts that authority, by the NSS tools. */
async function openBrowser(ca: string | undefined): Promise<Browser> {
  const home = await tempDir();
  const store = join(home, ".pki", "nssdb");
  await mkdir(store, { recursive: true });
  execFileSync("certutil", ["-N", "-d", `sql:${store}`, "--empty-password"]);
  if (ca !== undefined) execFileSync("certutil", ["-A", "-d", `sql:${store}`, "-n", "shop", "-t", "C,,"], { input: ca });
  const browser = await chromium.launch({
    executablePath: CHROMIUM,
    env: { ...process.env, HOME: home, XDG_DATA_HOME: join(home, "share") },
    args: [
      "--no-sandbox",
      `--host-resolver-rules=MAP ${NAME} 127.0.0.1, MAP ${ADDRESS} 127.0.0.1`,
      "--use-fake-ui-for-media-stream",
      "--use-fake-device-for-media-stream",
    ],
  });
  atEnd(() => browser.close());
  return browser;
}

/** A whole copy of the built screens: a build that runs meanwhile empties the folder first and writes sw.js last. */
async function copyScreens(): Promise<string> {
  const webDir = join(await tempDir(), "web");
  const copy = async () => {
    await rm(webDir, { recursive: true, force: true });
    await cp(WEB, webDir, { recursive: true }).catch(() => undefined);
    return ["index.html", "sw.js"].filter((name) => !existsSync(join(webDir, name)));
  };
  const message = "Expected the screens to be built, got none: npm run build:web";
  await expect.poll(copy, { timeout: 30_000, interval: 1000, message }).toEqual([]);
  return webDir;
}

const url = (to: TestLan, path = "/") => `https://${NAME}:${to.securePort}${path}`;

/** What the page can do, told by the browser itself. */
const abilities = (page: Page) =>
  page.evaluate(() => ({
    secure: isSecureContext,
    microphone: "mediaDevices" in navigator,
    worker: "serviceWorker" in navigator,
    wakeLock: "wakeLock" in navigator,
  }));

/** The worker fetches the screens and the ear's model before it is ready; two browsers may share the machine. */
const PATIENCE = 120_000;

it(
  "has a live microphone, a service worker in charge and a wake lock, once the authority is trusted and the device paired",
  async () => {
    const to = await bootLan({ webDir: await copyScreens() });
    const browser = await openBrowser(to.ca);
    const page = await (await browser.newContext()).newPage();
    const violations: string[] = [];
    page.on("console", (message) => {
      if (/Content Security Policy/i.test(message.text())) violations.push(message.text());
    });

    await page.goto(url(to));
    expect(new URL(page.url()).pathname).toBe("/pair");
    const { code } = await to.pairing.make("bench");
    await page.goto(url(to, `/pair?code=${code}`));
    await page.getByLabel("What to call this device").fill("Phone at the vise");
    await page.getByRole("button", { name: "Pair this device" }).click();
    await page.waitForURL(url(to));
    expect((await to.list.devices()).map((device) => device.name)).toEqual(["Phone at the vise"]);

    expect(await abilities(page)).toEqual({ secure: true, microphone: true, worker: true, wakeLock: true });
    // The certificate's store is what the worker's rules go by: a warning clicked away would not do.
    expect(await page.evaluate(async () => (await navigator.serviceWorker.ready).active?.scriptURL)).toBe(url(to, "/sw.js"));
    const microphone = await page.evaluate(async () => {
      const stream = await navigator.mediaDevices.getUserMedia({ audio: true });
      const context = new AudioContext();
      await context.resume();
      const analyser = context.createAnalyser();
      context.createMediaStreamSource(stream).connect(analyser);
      const samples = new Float32Array(analyser.fftSize);
      let peak = 0;
      // The stand-in device beeps once a second.
      for (let i = 0; i < 60 && peak < 0.01; i += 1) {
        await new Promise((resolve) => setTimeout(resolve, 50));
        analyser.getFloatTimeDomainData(samples);
        for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
      }
      return { state: stream.getAudioTracks()[0]?.readyState, peak };
    });
    expect(microphone.state).toBe("live");
    expect(microphone.peak).toBeGreaterThan(0.01);
    const cookies = await page.evaluate(() => document.cookie);
    expect(cookies).toBe("");
    expect(await page.evaluate(async () => (await fetch("/api/builds")).status)).toBe(200);
    expect(violations).toEqual([]);

    // Cut off: the page in hand can do nothing more.
    const [device] = await to.list.devices();
    await to.list.cutOff(device?.id ?? "");
    expect(await page.evaluate(async () => (await fetch("/api/builds")).status)).toBe(401);
  },
  PATIENCE,
);

it("is refused by a browser that does not trust the authority", async () => {
  const to = await bootLan();
  const page = await (await openBrowser(undefined)).newPage();
  await expect(page.goto(url(to))).rejects.toThrow(/ERR_CERT_AUTHORITY_INVALID/);
});

it("is refused by a browser that trusts the authority when the certificate is for a name outside its limits", async () => {
  const to = await bootLan();
  const { issueLeaf } = await import("../../../server/lan/leaf.ts");
  const forged = await issueLeaf(to.lan.authority, [NAME, "bank.example"], []);
  const server = to.lan.secure.server as unknown as import("node:https").Server;
  server.setSecureContext({ key: forged.keyPem, cert: forged.certificatePem });
  const page = await (await openBrowser(to.ca)).newPage();
  await expect(page.goto(url(to))).rejects.toThrow(/ERR_CERT_/);
});

it("is told over plain http what is missing and how to get it", async () => {
  const to = await bootLan();
  const page = await (await openBrowser(undefined)).newPage();
  await page.goto(`http://${NAME}:${to.plainPort}/`);
  expect(await abilities(page)).toEqual({ secure: false, microphone: false, worker: false, wakeLock: false });
  expect(await page.getByRole("heading", { name: "iPhone and iPad (Safari)" }).count()).toBe(1);
  expect(await page.locator("ol li").count()).toBeGreaterThan(15);
  const size = await page.evaluate(() => Number.parseFloat(getComputedStyle(document.body).fontSize));
  expect(size).toBeGreaterThanOrEqual(20);
  const { code } = await to.pairing.make("bench");
  await page.goto(`http://${NAME}:${to.plainPort}/pair?code=${code}`);
  await page.getByLabel("What to call this device").fill("Old tablet");
  await page.getByRole("button", { name: "Pair this device" }).click();
  await page.getByRole("link", { name: "Mill engine" }).click();
  await page.getByLabel("Type it as you would say it").fill("bore 2 3.8750");
  await page.getByRole("button", { name: "Enter" }).click();
  await expect.poll(() => page.locator(".entry .big").first().textContent()).toBe("3.8750 in");
});
