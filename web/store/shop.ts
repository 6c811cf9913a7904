// The shop's service as the screens use it: requests out, checked answers in, one kind of failure.
import { type BuildRow, buildListSchema } from "../../shared/api/builds.ts";
import { type DemoState, demoStateSchema } from "../../shared/api/demo.ts";
import { type Receipt, receiptsSchema } from "../../shared/api/entries.ts";
import { errorSchema } from "../../shared/api/errors.ts";
import type { BenchEvent, StoredEvent } from "../../shared/events/events.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { isoWithOffset } from "./clock.ts";
import { ShopFailure } from "./failure.ts";
import type { Carrier, PhotoParcel } from "./parcel.ts";

const PATIENCE_MS = 30_000;

async function ask(path: string, init: RequestInit = {}): Promise<Response> {
  let response: Response;
  try {
    response = await fetch(path, { signal: AbortSignal.timeout(PATIENCE_MS), ...init });
  } catch {
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

/** Events were checked when they were stored; here only the envelope's shape is looked at, so that a long log opens fast. */
const pageShape: Shape<{ events: StoredEvent[]; last: number }> = {
  parse(value) {
    const page = value as { events?: StoredEvent[]; last?: number };
    if (!Array.isArray(page.events) || typeof page.last !== "number") throw new RangeError("Expected a page of events");
    for (const row of page.events)
      if (typeof row.seq !== "number" || typeof row.event?.id !== "string") throw new RangeError("Expected stored events");
    return { events: page.events, last: page.last };
  },
};

export const listBuilds = async (): Promise<BuildRow[]> => (await askFor(buildListSchema, "/api/builds")).builds;
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
  async putBlob(sha256, bytes) {
    await ask(`/api/blobs/${sha256}`, {
      method: "PUT",
      headers: { "content-type": "application/octet-stream" },
      body: new Blob([bytes]),
    });
  },
  async postEvents(build: string, events: readonly BenchEvent[]): Promise<readonly Receipt[]> {
    return (await askFor(receiptsSchema, `/api/builds/${build}/events`, json({ events }))).stored;
  },
  async postPhoto(parcel: PhotoParcel, bytes) {
    const form = new FormData();
    for (const [name, text] of Object.entries(parcel.fields)) form.append(name, text);
    form.append("sent", isoWithOffset(new Date()));
    form.append("photo", new Blob([bytes], { type: parcel.type }), "photo");
    await ask(`/api/builds/${parcel.build}/photos`, { method: "POST", body: form, signal: AbortSignal.timeout(120_000) });
  },
};
