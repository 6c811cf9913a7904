// What the service is built from. Each is a small interface, so that the service boots in a test without a recogniser.
import type { PhotoReader } from "../extractors/photo/index.ts";
import type { Context, Parsed } from "../shared/events/reading.ts";
import type { Spec } from "../shared/spec/spec.ts";
import type { Access } from "./access/access.ts";
import type { Blobs } from "./blobs/blobs.ts";
import type { Builds } from "./builds/builds.ts";
import type { LiveBus } from "./builds/live-bus.ts";
import type { Keeping } from "./keeping/keeper.ts";
import type { Store } from "./store/store.ts";

/** Words from sound. */
export interface Hearing {
  state(): "ready" | "loading" | "absent";
  /** `heard` is empty when nothing was said. @throws HearingError for a clip that cannot be heard */
  hear(wav: Uint8Array, context: Context, spec: Spec): Promise<{ heard: string; seconds: number; parsed: Parsed }>;
}

export interface Deps {
  /** Id of the shop whose data this is. */
  readonly shop: string;
  readonly store: Store;
  readonly blobs: Blobs;
  readonly builds: Builds;
  readonly live: LiveBus;
  readonly access: Access;
  readonly hearing: Hearing;
  readonly photos: PhotoReader;
  /** How checks and backups stand, where somebody looks after the shop. */
  readonly keeping?: () => Promise<Keeping>;
  parse(text: string, context: Context, spec: Spec): Parsed;
  /** Folder of derived pictures; may be emptied at any time. */
  readonly derivedDir: string;
  /** Folder of the built screens, or none when they were not built. */
  readonly webDir?: string;
  /** Files that a browser's ear fetches, by their name below /model/. */
  readonly modelFiles?: ReadonlyMap<string, string>;
}
