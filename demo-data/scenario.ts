// The demo build's day book: what is said, opened, changed and photographed, in order. Our own invention from end to end;
// sounds are synthesised from `say`, pictures are drawn. Nothing here is a result: readings, verdicts and findings come from
// really running the clips and pictures through hearing, parsing, storing and checking.
import type { PartId } from "../shared/build/index.ts";
import type { EventData } from "../shared/events/events.ts";
import type { Place } from "../shared/places/places.ts";
import type { StepId } from "../shared/steps/steps.ts";
import { FINISH } from "./scenario/finish.ts";
import { FIT_UP } from "./scenario/fit-up.ts";
import { INSPECTION } from "./scenario/inspection.ts";
import { MACHINING } from "./scenario/machining.ts";
import { STRIP } from "./scenario/strip.ts";

/** One line of the day book. `wait` is how many minutes after the line before it happens (1 when absent). */
export type Line =
  | { readonly clip: string; readonly say: string; readonly noise?: "compressor" | "fan"; readonly wait?: number }
  | { readonly type: string; readonly wait?: number }
  | { readonly step: StepId; readonly wait?: number }
  | { readonly close: StepId; readonly wait?: number }
  | { readonly photos: string; readonly wait?: number }
  | { readonly change: PartId; readonly place: Place; readonly what: string; readonly wait?: number }
  | { readonly keep: EventData["instrument.kept"]; readonly wait?: number }
  | { readonly zero: EventData["instrument.zeroed"]; readonly wait?: number };

export const DEMO_NAME = "Bramblecote Four out of the mill yard";
export const DEMO_CUSTOMER = "Customer A";
/** The morning the demo build starts. */
export const DEMO_START = "2026-03-02T08:10:00+00:00";

/** Every line in order. A `photos` line stands for the pictures of that group in the photo manifest. */
export const DAY_BOOK: readonly Line[] = [...STRIP, ...INSPECTION, ...MACHINING, ...FIT_UP, ...FINISH];

export interface SpokenClip {
  /** File name without its ending. */
  readonly id: string;
  readonly say: string;
  readonly noise?: "compressor" | "fan";
}

/** The clips to synthesise. */
export const SCENARIO: readonly SpokenClip[] = DAY_BOOK.flatMap((line) =>
  "clip" in line ? [{ id: line.clip, say: line.say, ...(line.noise === undefined ? {} : { noise: line.noise }) }] : [],
);
