// Writing into a build's log: meaning and blobs checked first, then one append, then whoever watches is told.
import type { BenchEvent } from "../../shared/events/events.ts";
import { faultAtDoor } from "../../shared/events/meaning.ts";
import type { Deps } from "../deps.ts";
import { expected, ServiceError } from "../errors.ts";
import { blobsOf } from "../store/blob-refs.ts";
import type { StoredRow } from "../store/store.ts";
import type { Who } from "./who.ts";

/**
 * Append events and tell the watchers.
 * @param who sent them; a demo is nobody's
 * @throws ServiceError with a code of `MEANING_CODES` when an event makes no sense, `blob_missing` when an event rests on a clip or photo that was not sent, and as `Store.append`
 */
export async function logEvents(deps: Deps, events: readonly BenchEvent[], who?: Who): Promise<StoredRow[]> {
  for (const event of events) {
    const fault = faultAtDoor(event);
    if (fault !== undefined) throw new ServiceError(fault.code, fault.say);
    for (const blob of blobsOf(event))
      if (!(await deps.blobs.has(blob.sha256)))
        throw new ServiceError(
          "blob_missing",
          expected(`the ${blob.kind} ${blob.sha256} to be sent first`, `event ${event.id}`, "none"),
        );
  }
  who?.stillIn();
  const { rows, added } = await deps.store.append(events);
  if (added > 0) for (const build of new Set(events.map((event) => event.build))) deps.live.grown(build);
  return rows;
}
