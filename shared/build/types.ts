// A build as folded from its events: what is known now, with every earlier state of a reading kept.
import type { EventData } from "../events/events.ts";
import type { MeaningCode } from "../events/meaning.ts";
import type { Note, Question, Reading } from "../events/reading.ts";
import type { Place } from "../places/places.ts";
import type { QuantityId } from "../quantities/types.ts";
import type { Condition, Spec } from "../spec/spec.ts";
import type { StepId } from "../steps/steps.ts";
import type { List } from "./layers.ts";

/**
 * `counted` enters rules; `waiting` needs a yes; `rejected` and `struck` were taken back by voice;
 * `superseded` gave way to a later reading of the same thing at the same place in the same condition.
 */
export type ReadingStatus = "counted" | "waiting" | "rejected" | "struck" | "superseded";

export interface LoggedReading {
  /** Id of the event that took it. */
  readonly id: string;
  /** Number of the event in the fold, for "newer than". */
  readonly order: number;
  readonly at: string;
  readonly by: string;
  readonly device: string;
  reading: Reading;
  readonly step?: StepId;
  readonly condition: Condition;
  readonly instrument?: string;
  readonly utterance?: string;
  status: ReadingStatus;
  /** Set when the part it was taken on has been changed since: the event that did it. */
  stale?: { readonly event: string; readonly what: string };
  /** Earlier values and places, oldest first, each with the event that replaced it. */
  readonly revisions: { readonly reading: Reading; readonly event: string }[];
  /** Ids of all events this reading rests on. */
  readonly evidence: string[];
}

export interface LoggedPhoto {
  readonly id: string;
  readonly order: number;
  readonly at: string;
  readonly by: string;
  readonly device: string;
  readonly photo: EventData["photo.taken"]["photo"];
  place: Place;
  step?: StepId;
  proof?: string;
  readonly statement?: string;
  marks: EventData["photo.marked"]["marks"];
}

export interface LoggedNote {
  readonly id: string;
  readonly order: number;
  readonly at: string;
  readonly by: string;
  readonly note: Note;
  readonly step?: StepId;
  readonly utterance?: string;
}

export interface LoggedUtterance {
  readonly id: string;
  readonly at: string;
  readonly text: string;
  readonly by: "voice" | "typed";
  readonly clip?: string;
}

export interface PartChange {
  readonly id: string;
  readonly order: number;
  readonly at: string;
  readonly part: EventData["part.changed"]["part"];
  readonly place: Place;
  readonly what: string;
}

export interface Instrument extends Omit<EventData["instrument.kept"], "instrument"> {
  readonly id: string;
  /** When it was put on the register. */
  readonly kept: string;
  zero?: {
    readonly event: string;
    readonly at: string;
    readonly deviation: string;
    readonly unit: EventData["instrument.zeroed"]["unit"];
  };
}

export interface StepRecord {
  readonly step: StepId;
  opened: string;
  openedOrder: number;
  closed?: string;
}

/** Where one device is in the job: what the next utterance is read against. */
export interface Focus {
  step?: StepId;
  place: Place;
  quantity?: QuantityId;
  /** Id of the last reading taken on this device that still stands or waits. */
  last?: string;
  question?: Question;
}

export interface AcceptedFinding {
  readonly id: string;
  readonly rule: string;
  readonly place: Place;
  readonly why: string;
  readonly by: string;
  readonly at: string;
}

/** An event, or a part of one, that the log holds and the build does not count. */
export interface SetAside {
  readonly id: string;
  /** Number of the event in the fold, and in the log where that was folded whole. */
  readonly order: number;
  readonly at: string;
  readonly type: string;
  /** `unreadable` is none of this version's events. */
  readonly code: MeaningCode | "unreadable";
  /** "Expected X for Y, got Z". */
  readonly say: string;
}

export interface Build {
  readonly id: string;
  name: string;
  customer?: string;
  opened: string;
  spec: Spec;
  /** How many events have been folded. */
  count: number;
  readonly seen: Set<string>;
  /** Every reading ever taken, by event id, in order of taking. */
  readonly readings: Map<string, LoggedReading>;
  /** Readings of one quantity at one place, newest last, whatever their status; key `readingKey`. */
  readonly byKey: Map<string, List<LoggedReading>>;
  /** The counted reading of each key and condition. */
  readonly standing: Map<string, Map<Condition, LoggedReading>>;
  /** Readings of one quantity, in order of taking. */
  readonly byQuantity: Map<QuantityId, List<LoggedReading>>;
  /** Readings in the order each device took them. */
  readonly byDevice: Map<string, List<LoggedReading>>;
  readonly waiting: Map<string, LoggedReading>;
  readonly photos: Map<string, LoggedPhoto>;
  readonly notes: List<LoggedNote>;
  readonly utterances: Map<string, LoggedUtterance>;
  readonly changes: List<PartChange>;
  readonly instruments: Map<string, Instrument>;
  readonly steps: Map<StepId, StepRecord>;
  readonly focus: Map<string, Focus>;
  readonly accepted: List<AcceptedFinding>;
  /** What could not be counted, oldest first. */
  readonly setAside: List<SetAside>;
  handedOver?: { readonly event: string; readonly at: string; readonly by: string; readonly head: string };
}

/** What an event changed, as keys that rules depend on: `reading:…`, `photo:…`, `note:…`, `step:…`, `part:…`, `spec`. */
export type Touched = readonly string[];
