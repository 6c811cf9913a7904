// Parcels that go together, sent: the shop's rows of them out, made from its receipts. Without a receipt nothing counts as sent.
import type { StoredEvent } from "../../shared/events/events.ts";
import { ShopFailure } from "./failure.ts";
import { blobsOfParcel, type Carrier, type Keep, type Parcel, type PhotoParcel } from "./parcel.ts";

const HASH = /^[0-9a-f]{64}$/;

/**
 * Send one photo, or events of one build. Gives the rows that the shop has of them now, at least one.
 * @throws ShopFailure
 */
export async function sendBatch(keep: Keep, carrier: Carrier, batch: readonly Parcel[]): Promise<readonly StoredEvent[]> {
  const [first] = batch;
  if (first === undefined) return [];
  return first.kind === "photo" ? sendPhoto(keep, carrier, first) : sendEvents(keep, carrier, first.build, batch);
}

async function sendPhoto(keep: Keep, carrier: Carrier, parcel: PhotoParcel): Promise<readonly StoredEvent[]> {
  const { id, sha256 } = parcel;
  const bytes = await keep.blob(sha256);
  if (bytes === undefined) throw new ShopFailure("blob_missing", `Expected the picture ${sha256} on this device, got none`, 422);
  const rows = await carrier.postPhoto(parcel, bytes);
  const got = rows.some(
    ({ hash, event }) => HASH.test(hash) && event.id === id && event.type === "photo.taken" && event.data.photo.sha256 === sha256,
  );
  if (!got) throw noReceipt("the picture");
  return rows;
}

async function sendEvents(
  keep: Keep,
  carrier: Carrier,
  build: string,
  batch: readonly Parcel[],
): Promise<readonly StoredEvent[]> {
  // Put without asking first: the name is the content's hash, so a second time changes nothing. What is no longer here the shop
  // may have: it says so itself.
  for (const sha256 of new Set(batch.flatMap(blobsOfParcel))) {
    const bytes = await keep.blob(sha256);
    if (bytes !== undefined) await carrier.putBlob(sha256, bytes);
  }
  const events = batch.flatMap((parcel) => (parcel.kind === "event" ? [parcel.event] : []));
  const receipts = new Map((await carrier.postEvents(build, events)).map((receipt) => [receipt.id, receipt]));
  const rows = events.flatMap((event): StoredEvent[] => {
    const receipt = receipts.get(event.id);
    if (receipt === undefined || !HASH.test(receipt.hash)) return [];
    const { seq, hash, receivedAt, device, by } = receipt;
    return [{ seq, hash, receivedAt, event: { ...event, device, by } }];
  });
  if (rows.length === 0) throw noReceipt(`${events.length} events`);
  return rows;
}

const noReceipt = (what: string) => new ShopFailure("strange_answer", `Expected a receipt for ${what}, got none`, 502);
