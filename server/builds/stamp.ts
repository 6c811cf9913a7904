// Names, clock and numbers for events that the server makes in a device's name.
import { v7 } from "uuid";
import type { Stamp } from "../../extractors/bench/index.ts";
import type { Store } from "../store/store.ts";
import { type Claim, narrowed, type Who } from "./who.ts";

export interface Moment extends Claim {
  readonly id?: string | undefined;
  readonly at?: string | undefined;
}

/** A stamp whose first event gets the caller's id, where there is one. */
export async function makeStamp(store: Store, build: string, moment: Moment, who: Who): Promise<Stamp> {
  const { device, by } = narrowed(who, moment);
  let seq = await store.nextDeviceSeq(device);
  let id = moment.id;
  return {
    build,
    device,
    by,
    now: () => moment.at ?? new Date().toISOString(),
    nextSeq: () => seq++,
    newId: () => {
      const given = id ?? v7();
      id = undefined;
      return given;
    },
  };
}
