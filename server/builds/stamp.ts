// Names, clock and numbers for events that the server makes in a device's name.
import { v7 } from "uuid";
import type { Stamp } from "../../extractors/bench/index.ts";
import type { Store } from "../store/store.ts";

export interface Moment {
  readonly id?: string | undefined;
  readonly device?: string | undefined;
  readonly by?: string | undefined;
  readonly at?: string | undefined;
}

/** A stamp whose first event gets the caller's id, where there is one. */
export async function makeStamp(
  store: Store,
  build: string,
  moment: Moment,
  fallback: { device: string; by: string },
): Promise<Stamp> {
  const device = moment.device ?? fallback.device;
  let seq = await store.nextDeviceSeq(device);
  let id = moment.id;
  return {
    build,
    device,
    by: moment.by ?? fallback.by,
    now: () => moment.at ?? new Date().toISOString(),
    nextSeq: () => seq++,
    newId: () => {
      const given = id ?? v7();
      id = undefined;
      return given;
    },
  };
}
