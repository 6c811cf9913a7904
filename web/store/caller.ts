// What this device may do in the shop and what it is called there, as the shop said last: a device that may only look takes no
// words that would never go.
import { signal } from "@preact/signals";
import { type Caller, callerSchema } from "../../shared/api/builds.ts";
import { type Device, getSetting, setSetting } from "./device.ts";
import { ShopFailure } from "./failure.ts";
import { whoAmI } from "./shop.ts";

const CALLER = "caller";
/** The shop's own machine writes under whatever name it gives. */
const SHOP = "shop";

export const caller = signal<Caller | undefined>(undefined);

export const mayWrite = (): boolean => caller.value?.role !== "viewer";

/** @throws ShopFailure `forbidden_role` on a device that may only look */
export function checkMayWrite(): void {
  if (!mayWrite())
    throw new ShopFailure("forbidden_role", "Expected a device that may write, got one that the owner lets only look", 403);
}

function take(device: Device, found: Caller): void {
  caller.value = found;
  device.id = found.device === SHOP ? device.own : `${found.device}/${device.own}`;
}

/** Remember what the shop said before, then ask it again; out of its reach the old answer holds. */
export async function learnCaller(device: Device): Promise<void> {
  const before = callerSchema.safeParse(await getSetting(device, CALLER));
  if (before.success) take(device, before.data);
  void whoAmI().then(
    (found) => {
      take(device, found);
      return setSetting(device, CALLER, found);
    },
    () => undefined,
  );
}
