// A shop whose book was put back from an older copy lacks what it had confirmed since. This device still has it: nothing of that
// is dropped here before the shop has it again.
import type { StoredEvent } from "../../shared/events/events.ts";
import { type Carrier, type Keep, parcelOf, type Refusal } from "./parcel.ts";

const LOST: Refusal = {
  kind: "lost",
  code: "lost_by_shop",
  message: "Expected the shop to have what it confirmed, got a book without it",
};

/** Whether the shop's log of a build goes on from the last row it confirmed to this device. @throws ShopFailure */
export async function logsAgree(keep: Keep, carrier: Carrier, build: string): Promise<boolean> {
  const head = await keep.head(build);
  if (head === undefined) return true;
  const [same] = await carrier.rowsAfter(build, head.seq - 1, 1);
  return same?.hash === head.hash;
}

/**
 * Compare the shop's log of a build with the rows it confirmed to this device. The last of them is enough while it agrees: each
 * row's hash covers all before it. Where it does not, the shop's log replaces the copy here, and entries it lacks become
 * parcels that are `lost`. True when the log was replaced.
 * @throws ShopFailure when the shop cannot be asked; nothing has changed then
 */
export async function compareLogs(keep: Keep, carrier: Carrier, build: string): Promise<boolean> {
  if (await logsAgree(keep, carrier, build)) return false;
  const theirs: StoredEvent[] = [];
  for (;;) {
    const page = await carrier.rowsAfter(build, theirs.length);
    theirs.push(...page);
    if (page.length === 0) break;
  }
  const there = new Set(theirs.map(({ event }) => event.id));
  const lost = (await keep.log(build)).filter(({ event }) => !there.has(event.id));
  await keep.replaceLog(
    build,
    theirs,
    lost.map(({ event }) => ({ ...parcelOf(event), refused: LOST })),
  );
  return true;
}
