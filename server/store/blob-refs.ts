// Which blobs an event rests on.
import type { BenchEvent } from "../../shared/events/events.ts";

export interface EventBlob {
  readonly sha256: string;
  readonly kind: "clip" | "photo";
  readonly type: string;
}

/** The blobs that must be stored before this event may be. */
export function blobsOf(event: BenchEvent): EventBlob[] {
  if (event.type === "utterance.heard" && event.data.clip !== undefined)
    return [{ sha256: event.data.clip, kind: "clip", type: "audio/wav" }];
  if (event.type === "photo.taken") return [{ sha256: event.data.photo.sha256, kind: "photo", type: event.data.photo.type }];
  return [];
}
