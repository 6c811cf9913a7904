// Boots the real service on a fresh data folder; the recogniser is a stand-in that hears what the clip's rate spells out.
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { v7 } from "uuid";
import { afterEach } from "vitest";
import { openPhotoReader } from "../../extractors/photo/index.ts";
import { type Access, loopbackAccess } from "../../server/access/access.ts";
import { buildApp } from "../../server/app.ts";
import { Builds } from "../../server/builds/builds.ts";
import { LiveBus } from "../../server/builds/live-bus.ts";
import { openShopData, type ShopData } from "../../server/data-dir.ts";
import type { Deps } from "../../server/deps.ts";
import type { App } from "../../server/http/types.ts";
import { collect } from "../../server/move/collect.ts";
import type { BenchEvent, EventData, EventType } from "../../shared/events/events.ts";
import type { Context, Parsed } from "../../shared/events/reading.ts";
import { Evaluator } from "../../shared/rules/index.ts";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";

const closers: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const close of closers.splice(0).reverse()) await close();
});

/** Run when the test ends, last registered first. */
export const atEnd = (close: () => Promise<unknown>) => void closers.push(close);

/** Take what is to be closed out of the running test's hands: for what a whole file shares. */
export function takeClosers(): () => Promise<void> {
  const taken = closers.splice(0).reverse();
  return async () => {
    for (const close of taken) await close();
  };
}

export async function tempDir(): Promise<string> {
  const dir = await mkdtemp(join(tmpdir(), "thoubook-test-"));
  atEnd(() => rm(dir, { recursive: true, force: true }));
  return dir;
}

/** A stand-in for the parser: one bore reading for "bore N VALUE", everything else unread. */
export function standInParse(text: string, context: Context): Parsed {
  const match = /^bore (\d) (\d\.\d+)$/.exec(text);
  const parsed: Parsed = { text, readings: [], questions: [], commands: [], notes: [], unread: [] };
  if (match === null) return { ...parsed, unread: text.split(" ").filter((word) => word !== "") };
  const reading = {
    quantity: "bore_diameter" as const,
    place: { ...context.place, cylinder: Number(match[1]) },
    value: Number(match[2]),
    unit: "in" as const,
    digits: match[2] ?? "",
    implied: [],
    do: "accept" as const,
    span: [0, text.length] as [number, number],
  };
  return { ...parsed, readings: [reading] };
}

export interface TestShop {
  readonly app: App;
  readonly deps: Deps;
  readonly data: ShopData;
}

/** The service on a fresh folder (or on `dir`), closed when the test ends. */
export async function bootShop(options: { dir?: string; access?: Access; deps?: Partial<Deps> } = {}): Promise<TestShop> {
  const dir = options.dir ?? (await tempDir());
  const data = await openShopData(dir);
  const deps: Deps = {
    shop: data.shop,
    store: data.store,
    blobs: data.blobs,
    builds: new Builds(data.store, (build) => new Evaluator(build)),
    live: new LiveBus(),
    access: options.access ?? loopbackAccess,
    hearing: {
      state: () => "ready",
      hear: async (wav, context) => {
        const heard = `bore 1 3.875${new DataView(wav.buffer, wav.byteOffset).getUint32(24, true) === 16000 ? 5 : 0}`;
        return { heard, seconds: 1, parsed: standInParse(heard, context) };
      },
    },
    photos: openPhotoReader(),
    parse: standInParse,
    derivedDir: join(dir, "derived"),
    ...options.deps,
  };
  const app = await buildApp(deps);
  let closed = false;
  atEnd(async () => {
    if (closed) return;
    closed = true;
    await app.close();
    await data.close();
  });
  return { app, deps, data };
}

/** Put every orphan of the shop aside, young ones too; gives how many there were. */
export async function putAsideOrphans(data: ShopData): Promise<number> {
  const { orphans } = await collect(data, { graceMs: 0 });
  return (await collect(data, { graceMs: 0, putAside: orphans })).putAside;
}

/** Open a demo build through the API and give its id. */
export async function openDemoBuild(app: App): Promise<string> {
  const answer = await app.inject({ method: "POST", url: "/api/builds", payload: { name: "Mill engine", demo: true } });
  return (answer.json() as { id: string }).id;
}

let seq = 0;
/** An event as a device would make it. */
export function makeEvent<T extends EventType>(
  build: string,
  type: T,
  data: EventData[T],
  over: Partial<BenchEvent> = {},
): BenchEvent {
  const envelope = { id: v7(), build, at: "2026-03-04T10:11:12+01:00", device: "phone-1", deviceSeq: seq++, by: "fitter" };
  return { ...envelope, type, data, ...over } as BenchEvent;
}

export const openingEvent = (build: string) => makeEvent(build, "build.opened", { name: "Mill engine", spec: DEMO_SPEC });
export const textEvent = (build: string, text: string) => makeEvent(build, "utterance.heard", { text, by: "typed" });

/** A WAV file of a quiet tone, 16-bit mono. */
export function makeWav(seconds = 0.5, rate = 16000): Buffer {
  const samples = Math.round(seconds * rate);
  const bytes = Buffer.alloc(44 + samples * 2);
  bytes.write("RIFF", 0, "latin1");
  bytes.writeUInt32LE(36 + samples * 2, 4);
  bytes.write("WAVEfmt ", 8, "latin1");
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(1, 22);
  bytes.writeUInt32LE(rate, 24);
  bytes.writeUInt32LE(rate * 2, 28);
  bytes.writeUInt16LE(2, 32);
  bytes.writeUInt16LE(16, 34);
  bytes.write("data", 36, "latin1");
  bytes.writeUInt32LE(samples * 2, 40);
  for (let i = 0; i < samples; i += 1) bytes.writeInt16LE(Math.round(8000 * Math.sin(i / 8)), 44 + i * 2);
  return bytes;
}

export interface Part {
  readonly name: string;
  readonly filename?: string;
  readonly type?: string;
  readonly value: string | Buffer;
}

/** A multipart body as a browser would send it. */
export function multipart(parts: readonly Part[]): { payload: Buffer; headers: Record<string, string> } {
  const boundary = "bench-boundary-7f3a";
  const pieces: Buffer[] = [];
  for (const part of parts) {
    const file =
      part.filename === undefined
        ? ""
        : `; filename="${part.filename}"\r\nContent-Type: ${part.type ?? "application/octet-stream"}`;
    pieces.push(Buffer.from(`--${boundary}\r\nContent-Disposition: form-data; name="${part.name}"${file}\r\n\r\n`));
    pieces.push(Buffer.isBuffer(part.value) ? part.value : Buffer.from(part.value), Buffer.from("\r\n"));
  }
  pieces.push(Buffer.from(`--${boundary}--\r\n`));
  return { payload: Buffer.concat(pieces), headers: { "content-type": `multipart/form-data; boundary=${boundary}` } };
}

export const clipForm = (value: Buffer, fields: Record<string, string> = {}) =>
  multipart([
    ...Object.entries(fields).map(([name, text]) => ({ name, value: text })),
    { name: "clip", filename: "clip.wav", type: "audio/wav", value },
  ]);
