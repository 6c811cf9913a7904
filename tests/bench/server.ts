// How long the shop's server takes: typed words, a clip up to its verdict, a batch of events, reading the book. Prints JSON.
// Every request is whole: over a socket on loopback, read, stored with its fsync, folded, checked against the rules.
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { v7 } from "uuid";
import { makeLogger } from "../../server/http/log.ts";
import { openSenses } from "../../server/senses.ts";
import { startShop } from "../../server/server.ts";

const CLIPS = join(import.meta.dirname, "../../demo-data/clips");
const SAYINGS = [
  "bore number two top thrust three point eight seven five oh",
  "ring gap number one top, fourteen thou",
  "main one, two point oh oh oh oh",
];

const dir = await mkdtemp(join(tmpdir(), "thoubook-bench-"));
const shop = await startShop({ dataDir: join(dir, "shop"), port: 0, logger: makeLogger("silent"), senses: openSenses() });

async function call(path: string, init: RequestInit = {}): Promise<unknown> {
  const answer = await fetch(shop.url + path, init);
  if (!answer.ok) throw new Error(`Expected ${path} to succeed, got ${answer.status} ${await answer.text()}`);
  return await answer.json();
}
const post = (path: string, body: unknown) =>
  call(path, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) });

/** Quantiles of `count` timed runs after a tenth of them untimed, milliseconds. */
async function timed(count: number, run: (index: number) => Promise<unknown>) {
  const times: number[] = [];
  for (let index = -Math.ceil(count / 10); index < count; index += 1) {
    const start = performance.now();
    await run(Math.abs(index));
    if (index >= 0) times.push(performance.now() - start);
  }
  times.sort((a, b) => a - b);
  const at = (share: number) =>
    Math.round((times[Math.min(times.length - 1, Math.floor(share * times.length))] ?? 0) * 100) / 100;
  return { count, p50: at(0.5), p95: at(0.95), p99: at(0.99), max: at(1) };
}

const { id: build } = (await post("/api/builds", { name: "Bench", demo: true })) as { id: string };
const base = `/api/builds/${build}`;
const words = async (index: number) => {
  await post(`${base}/utterances`, { text: SAYINGS[index % SAYINGS.length] });
  await call(`${base}/findings`);
};
let deviceSeq = 0;
const batch = (size: number) => {
  const at = new Date().toISOString();
  const event = () => ({
    id: v7(),
    build,
    at,
    device: "bench",
    deviceSeq: deviceSeq++,
    by: "bench",
    type: "utterance.heard",
    data: { text: "words", by: "typed" },
  });
  return post(`${base}/events`, { events: Array.from({ length: size }, event) });
};
const clips = (await readdir(CLIPS))
  .filter((name) => name.endsWith(".wav"))
  .sort()
  .slice(0, 40);
const sounds = await Promise.all(clips.map((name) => readFile(join(CLIPS, name))));
const hear = async (index: number) => {
  const form = new FormData();
  form.append("clip", new Blob([new Uint8Array(sounds[index % sounds.length] ?? [])], { type: "audio/wav" }), "clip.wav");
  await call(`${base}/clips`, { method: "POST", body: form });
  await call(`${base}/findings`);
};

const results = {
  cores: cpus().length,
  load: loadavg()[0],
  ms: {
    "typed words to verdict": await timed(200, words),
    "one event stored": await timed(300, () => batch(1)),
    "100 events stored": await timed(30, () => batch(100)),
    "clip to verdict": await timed(sounds.length, hear),
    "newest 100 of the book read": await timed(100, () => call(`${base}/events?limit=100`)),
  },
  events: ((await call(base)) as { head: { seq: number } }).head.seq,
};
process.stdout.write(`${JSON.stringify(results, null, 2)}\n`);
await shop.close();
await rm(dir, { recursive: true, force: true });
