// Words for a build's log: placed, read against the build as it stands, logged. Typed and heard words go this one way.
import { type Heard, logUtterance, type Stamp, stampEvent } from "../../extractors/bench/index.ts";
import { contextOf, focusOf } from "../../shared/build/index.ts";
import type { BenchEvent } from "../../shared/events/events.ts";
import type { Context, Parsed } from "../../shared/events/reading.ts";
import { type Place, placeKey } from "../../shared/places/places.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import type { StepId } from "../../shared/steps/steps.ts";
import type { Deps } from "../deps.ts";
import { expected, ServiceError } from "../errors.ts";
import type { StoredRow } from "../store/store.ts";
import type { OpenedBuild } from "./builds.ts";
import { logEvents } from "./log.ts";
import { type Moment, makeStamp } from "./stamp.ts";
import type { Who } from "./who.ts";

export interface Said extends Moment {
  readonly build: string;
  readonly step?: StepId | undefined;
  readonly place?: Place | undefined;
}

export interface Understood {
  readonly parsed: Parsed;
  readonly heard: Heard;
}

export interface Listener {
  /** Whether a stored event is this same utterance, sent before. */
  same(event: BenchEvent): boolean;
  /** Gets the context of the device's place in the job, after `step` and `place` have moved it there. */
  understand(context: Context, spec: Spec): Promise<Understood> | Understood;
}

export type LoggedWords =
  | { readonly again: true; readonly rows: StoredRow[] }
  | { readonly again: false; readonly rows: StoredRow[]; readonly parsed: Parsed; readonly say: readonly string[] };

/**
 * Log words. Sent again under the same id they are answered from the log.
 * Nothing of the words is stored when `understand` throws.
 */
export function logWords(deps: Deps, said: Said, who: Who, listener: Listener): Promise<LoggedWords> {
  return deps.builds.use(said.build, async (opened) => {
    const { build } = opened;
    const before = await loggedBefore(deps, said.build, said.id, listener.same);
    if (before !== undefined) return { again: true, rows: before };
    const { id: _kept, ...moment } = said;
    const moving = await makeStamp(deps.store, said.build, moment, who);
    await move(deps, opened, said, moving, who);
    const { parsed, heard } = await listener.understand(contextOf(build, moving.device), build.spec);
    const stamp = await makeStamp(deps.store, said.build, said, who);
    const { events, say } = logUtterance({ parsed, build, stamp, heard, keep: true });
    return { again: false, rows: await logEvents(deps, events, who), parsed, say };
  });
}

/** Open the step and the place that the sender named, where the device is elsewhere. */
async function move(deps: Deps, opened: OpenedBuild, said: Said, stamp: Stamp, who: Who): Promise<void> {
  const focus = focusOf(opened.build, stamp.device);
  const events: BenchEvent[] = [];
  if (said.step !== undefined && said.step !== focus.step) events.push(stampEvent(stamp, "step.opened", { step: said.step }));
  const placed = said.place !== undefined && (events.length > 0 || placeKey(focus.place) !== placeKey(said.place));
  if (said.place !== undefined && placed) events.push(stampEvent(stamp, "place.opened", { place: said.place }));
  if (events.length === 0) return;
  await logEvents(deps, events, who);
  await opened.refresh();
}

/**
 * What was stored under this id before, with all that came of it, when it is the same thing of the same build.
 * @throws ServiceError `id_conflict`
 */
export async function loggedBefore(
  deps: Deps,
  build: string,
  id: string | undefined,
  same: (event: BenchEvent) => boolean,
): Promise<StoredRow[] | undefined> {
  const row = id === undefined ? undefined : await deps.store.find(id);
  if (id === undefined || row === undefined) return undefined;
  if (row.build === build && same(JSON.parse(row.body) as BenchEvent)) return await deps.store.bundle(id);
  throw new ServiceError("id_conflict", expected("the content stored before", `event ${id}`, "other content under the same id"));
}
