// The shop's service as the screens use it: requests out, checked answers in, one kind of failure.
import { type BuildRow, buildListSchema, type Caller, callerSchema } from "../../shared/api/builds.ts";
import { type DemoState, demoStateSchema } from "../../shared/api/demo.ts";
import type { Receipt } from "../../shared/api/entries.ts";
import { errorSchema } from "../../shared/api/errors.ts";
import type { BenchEvent, StoredEvent } from "../../shared/events/events.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { isoWithOffset } from "./clock.ts";
import { ShopFailure } from "./failure.ts";
import type { Carrier, PhotoParcel } from "./parcel.ts";

const PATIENCE_MS = 30_000;
/** For sounds and pictures. */
const LONG_PATIENCE_MS = 120_000;

async function ask(path: string, init: RequestInit = {}): Promise<Response> {
  let response: Response;
  try {
    response = await fetch(path, { signal: AbortSignal.timeout(PATIENCE_MS), ...init });
  } catch (error) {
    if (error instanceof DOMException && error.name === "TimeoutError")
      throw new ShopFailure("too_long", "Expected the shop's answer in time, got none", 0);
    throw new ShopFailure("out_of_reach", "Expected an answer from the shop, got none", 0);
  }
  if (response.ok) return response;
  const body = errorSchema.safeParse(await response.json().catch(() => undefined));
  if (body.success) throw new ShopFailure(body.data.code, body.data.message, response.status);
  throw new ShopFailure("strange_answer", `Expected the shop's answer, got status ${response.status}`, response.status);
}

interface Shape<T> {
  parse(value: unknown): T;
}

async function askFor<T>(shape: Shape<T>, path: string, init?: RequestInit): Promise<T> {
  const response = await ask(path, init);
  try {
    return shape.parse(await response.json());
  } catch {
    throw new ShopFailure("strange_answer", `Expected the shop's answer to ${path}, got something else`, 502);
  }
}

const json = (body: unknown): RequestInit => ({
  method: "POST",
  headers: { "content-type": "application/json" },
  body: JSON.stringify(body),
});

/**
 * What the outbox rests on is looked at field by field: a shop that was brought up to date in mid-shift may answer with more,
 * and is still understood. Events were checked when they were stored, so that a long log opens fast.
 */
function shaped<T>(what: string, test: (value: Record<string, unknown>) => boolean): Shape<T> {
  return {
    parse(value) {
      if (typeof value !== "object" || value === null || !test(value as Record<string, unknown>))
        throw new RangeError(`Expected ${what}`);
      return value as T;
    },
  };
}

const isRow = (row: StoredEvent) =>
  typeof row.seq === "number" && typeof row.hash === "string" && typeof row.event?.id === "string";
const isReceipt = ({ id, seq, hash, receivedAt, device, by }: Receipt) =>
  typeof seq === "number" && [id, hash, receivedAt, device, by].every((text) => typeof text === "string");

const rowsShape = shaped<{ events: StoredEvent[] }>(
  "stored events",
  ({ events }) => Array.isArray(events) && events.every(isRow),
);
const pageShape = shaped<{ events: StoredEvent[]; last: number }>(
  "a page of events",
  ({ events, last }) => Array.isArray(events) && typeof last === "number" && events.every(isRow),
);
const receiptsShape = shaped<{ stored: Receipt[] }>("receipts", ({ stored }) => Array.isArray(stored) && stored.every(isReceipt));
const healthShape = shaped<{ shop?: string; time: string }>(
  "the shop's health",
  ({ shop, time }) => typeof time === "string" && (shop === undefined || typeof shop === "string"),
);

export const listBuilds = async (): Promise<BuildRow[]> => (await askFor(buildListSchema, "/api/builds")).builds;
export const whoAmI = (): Promise<Caller> => askFor(callerSchema, "/api/me");
export const demoState = (): Promise<DemoState> => askFor(demoStateSchema, "/api/demo");
export const startDemo = (): Promise<DemoState> => askFor(demoStateSchema, "/api/demo", { method: "POST" });
export const eventsAfter = (build: string, after: number, limit = 1000) =>
  askFor(pageShape, `/api/builds/${build}/events?after=${after}&limit=${limit}`);

/** Open a build in the shop. */
export async function openInShop(body: { id: string; name: string; customer?: string; spec: Spec; device: string; by: string }) {
  await ask("/api/builds", json(body));
}

export const clipUrl = (sha256: string): string => `/api/blobs/${sha256}`;
export const photoUrl = (sha256: string, size: "thumb" | "full"): string => `/api/photos/${sha256}/${size}`;

/** Carries the outbox's parcels over HTTP. */
export const shopCarrier: Carrier = {
  meet: () => askFor(healthShape, "/api/health", { cache: "no-store" }),
  async putBlob(sha256, bytes) {
    await ask(`/api/blobs/${sha256}`, {
      method: "PUT",
      headers: { "content-type": "application/octet-stream" },
      body: new Blob([bytes]),
      signal: AbortSignal.timeout(LONG_PATIENCE_MS),
    });
  },
  async postEvents(build: string, events: readonly BenchEvent[]): Promise<readonly Receipt[]> {
    return (await askFor(receiptsShape, `/api/builds/${build}/events`, json({ events }))).stored;
  },
  async postPhoto(parcel: PhotoParcel, bytes) {
    const form = new FormData();
    for (const [name, text] of Object.entries(parcel.fields)) form.append(name, text);
    form.append("sent", isoWithOffset(new Date()));
    form.append("photo", new Blob([bytes], { type: parcel.type }), "photo");
    const init = { method: "POST", body: form, signal: AbortSignal.timeout(LONG_PATIENCE_MS) };
    return (await askFor(rowsShape, `/api/builds/${parcel.build}/photos`, init)).events;
  },
  async rowsAfter(build, after, limit) {
    try {
      return (await eventsAfter(build, after, limit)).events;
    } catch (error) {
      if (error instanceof ShopFailure && error.code === "unknown_build") return [];
      throw error;
    }
  },
};
