// The real service in a child process on a fresh folder, and a real browser in front of it. Shared by all tests of the screens.
import { type ChildProcess, execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll } from "vitest";
import { CHROMIUM_ARGS, findChromium } from "../support/chromium.ts";
import { startCommand } from "../support/leashed.ts";
import { isStale } from "../support/stale.ts";

const closers: (() => Promise<unknown> | unknown)[] = [];
afterAll(async () => {
  for (const close of closers.splice(0).reverse()) await close();
});

async function freePort(): Promise<number> {
  return await new Promise((resolve, reject) => {
    const server = createServer();
    server.on("error", reject);
    server.listen(0, "127.0.0.1", () => {
      const address = server.address();
      server.close(() =>
        typeof address === "object" && address !== null ? resolve(address.port) : reject(new Error("no port")),
      );
    });
  });
}

/** The built screens; built here when they are not there or older than their sources. */
export function ensureScreens(): void {
  const built = join("dist", "web", "index.html");
  const fresh = !isStale(built, ["web", "extractors", "shared", "vite.config.ts"]) && statSync(built).size > 0;
  if (!fresh) execFileSync("npx", ["vite", "build", "--logLevel", "warn"], { stdio: "inherit" });
}

export interface Shop {
  readonly url: string;
  readonly port: number;
  /** Its data folder. */
  readonly data: string;
  stop(): Promise<void>;
  /** On its own folder, or on another. */
  start(folder?: string): Promise<void>;
}

/** Start the service; `stop` and `start` keep its port and its folder. */
export async function openShop(): Promise<Shop> {
  ensureScreens();
  const data = mkdtempSync(join(tmpdir(), "thoubook-web-"));
  const port = await freePort();
  const url = `http://127.0.0.1:${port}`;
  let child: ChildProcess | undefined;
  const start = async (folder = data) => {
    if (child !== undefined) return;
    const args = ["serve", "--port", String(port), "--data", folder, "--log", "silent", "--late-ear"];
    child = startCommand(args);
    child.stdout?.resume();
    let said = "";
    child.stderr?.on("data", (chunk) => {
      said += String(chunk);
    });
    // A minute: the machine may be building at the same time.
    for (let tries = 0; tries < 300; tries += 1) {
      if (child.exitCode !== null) break;
      const ready = await fetch(`${url}/api/health`).then(
        (response) => response.ok,
        () => false,
      );
      if (ready) return;
      await new Promise((resolve) => setTimeout(resolve, 200));
    }
    throw new Error(`Expected the service to start, got: ${said}`);
  };
  const stop = async () => {
    const running = child;
    child = undefined;
    if (running === undefined || running.exitCode !== null) return;
    const gone = new Promise((resolve) => running.once("exit", resolve));
    running.kill("SIGTERM");
    await gone;
  };
  closers.push(async () => {
    await stop();
    rmSync(data, { recursive: true, force: true });
  });
  await start();
  return { url, port, data, start, stop };
}

/** A browser; `args` beside the usual ones. */
export async function openBrowser(args: readonly string[] = []): Promise<Browser> {
  const executablePath = findChromium();
  if (executablePath === undefined) throw new Error("Expected a Chromium for the tests of the screens, got none");
  const browser = await chromium.launch({ executablePath, headless: true, args: [...CHROMIUM_ARGS, ...args] });
  closers.push(() => browser.close());
  return browser;
}

async function post<T>(shop: Shop, path: string, body: unknown): Promise<T> {
  const response = await fetch(`${shop.url}${path}`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body),
  });
  if (!response.ok) throw new Error(`${path}: ${await response.text()}`);
  return (await response.json()) as T;
}

/** A build of the demo engine with no entries; gives its id. */
export async function newBuild(shop: Shop, name = "Mill engine"): Promise<string> {
  return (await post<{ id: string }>(shop, "/api/builds", { name, demo: true })).id;
}

/** Typed words into a build from the shop's side. */
export async function typed(shop: Shop, build: string, texts: readonly string[], device = "vise"): Promise<void> {
  for (const text of texts) await post(shop, `/api/builds/${build}/utterances`, { text, device, by: "bench" });
}

export interface StoredReading {
  readonly id: string;
  readonly seq: number;
  readonly type: string;
  readonly data: Record<string, unknown>;
}

/** Every event that the shop holds of a build, in its order. */
export async function storedEvents(shop: Shop, build: string): Promise<StoredReading[]> {
  const response = await fetch(`${shop.url}/api/builds/${build}/events`);
  const { events } = (await response.json()) as { events: { seq: number; event: Omit<StoredReading, "seq"> }[] };
  return events.map(({ seq, event }) => ({ seq, ...event }));
}

/** Type lines into the box for words, each once the one before is answered for; gives each line's answer, "" where it was logged. */
export function typeLines(page: Page, lines: readonly string[]): Promise<string[]> {
  return page.evaluate(async (all) => {
    const input = document.querySelector<HTMLInputElement>("#words");
    const button = input?.form?.querySelector("button");
    if (!input?.form || !button) throw new Error("Expected a box for words, got none");
    const answers: string[] = [];
    const turn = () => new Promise((resolve) => setTimeout(resolve, 1));
    for (const line of all) {
      input.value = line;
      input.dispatchEvent(new Event("input", { bubbles: true }));
      await turn();
      input.form.requestSubmit();
      do await turn();
      while (button.disabled);
      await turn();
      answers.push(input.value === "" ? "" : (document.querySelector(".answer")?.textContent ?? "?"));
    }
    return answers;
  }, lines);
}

/** What the page complained of while it was open: to be empty at the end. */
export function complaints(page: Page): string[] {
  const list: string[] = [];
  page.on("pageerror", (error) => list.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") list.push(message.text());
  });
  return list;
}
