// How long the day book takes to open a build of N events in a real browser: from the shop, on a phone that has it, and with the
// shop away. Prints JSON. Run it on an idle machine: npm run bench:open -- 100000
import { mkdtemp, rm } from "node:fs/promises";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { chromium, type Page } from "playwright-core";
import { v7 } from "uuid";
import { makeLogger } from "../../server/http/log.ts";
import { openSenses } from "../../server/senses.ts";
import { startShop } from "../../server/server.ts";
import { AXES, DEPTHS } from "../../shared/places/places.ts";
import { CHROMIUM_ARGS, findChromium } from "../support/chromium.ts";

const COUNT = Number(process.argv[2] ?? 100_000);
const BATCH = 500;

const dir = await mkdtemp(join(tmpdir(), "thoubook-open-"));
const shop = await startShop({ dataDir: join(dir, "shop"), port: 0, logger: makeLogger("silent"), senses: openSenses() });

async function post(path: string, body: unknown): Promise<{ id: string }> {
  const answer = await fetch(shop.url + path, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body),
  });
  if (!answer.ok) throw new Error(`Expected ${path} to succeed, got ${answer.status} ${await answer.text()}`);
  return (await answer.json()) as { id: string };
}

const { id: build } = await post("/api/builds", { name: "A long job", demo: true });
let seq = 0;
/** One entry of the day book: what was said, and the bore that came of it. */
function said(n: number) {
  const envelope = () => ({ id: v7(), build, at: new Date().toISOString(), device: "vise", deviceSeq: seq++, by: "bench" });
  const words = { ...envelope(), type: "utterance.heard", data: { text: `bore entry ${n}`, by: "typed" } };
  const place = { cylinder: 1 + (n % 4), depth: DEPTHS[n % DEPTHS.length], axis: AXES[n % AXES.length] };
  const digits = (3.875 + (n % 120) / 10_000).toFixed(4);
  const reading = {
    quantity: "bore_diameter",
    place,
    value: Number(digits),
    unit: "in",
    digits,
    implied: [],
    do: "accept",
    span: [0, 1],
  };
  return [words, { ...envelope(), type: "reading.taken", data: { utterance: words.id, reading } }];
}
for (let done = 1; done < COUNT; done += BATCH)
  await post(`/api/builds/${build}/events`, { events: Array.from({ length: BATCH / 2 }, (_, n) => said(done + n)).flat() });

const executablePath = findChromium();
if (executablePath === undefined) throw new Error("Expected a Chromium, got none");
const browser = await chromium.launch({ executablePath, headless: true, args: [...CHROMIUM_ARGS] });
const page = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();

/** Seconds from asking for the page to its newest entry, and until all are there. */
async function opens(go: (page: Page) => Promise<unknown>) {
  const start = performance.now();
  const seconds = () => Math.round((performance.now() - start) / 10) / 100;
  await go(page);
  await page.locator(".entry").first().waitFor({ timeout: 300_000 });
  const first = seconds();
  await page.getByText(`${Math.floor(COUNT / BATCH) * (BATCH / 2) + 1} entries`).waitFor({ timeout: 300_000 });
  return { first, whole: seconds() };
}

const results: Record<string, unknown> = { events: seq, cores: cpus().length, load: loadavg()[0] };
try {
  results.fromShop = await opens((one) => one.goto(`${shop.url}/#/book/${build}`));
  await page.evaluate(() => navigator.serviceWorker.ready);
  results.again = await opens((one) => one.reload());
  await page.context().setOffline(true);
  results.shopAway = await opens((one) => one.reload());
} finally {
  process.stdout.write(`${JSON.stringify(results)}\n`);
  await browser.close();
  await shop.close();
  await rm(dir, { recursive: true, force: true });
}
