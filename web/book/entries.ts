// The log as a person reads it: what was said with all that came of it is one entry, and so is a picture, a step, a changed part.
import type { BenchEvent, EventData } from "../../shared/events/events.ts";
import type { Note, Question } from "../../shared/events/reading.ts";
import { type Place, placeLabel } from "../../shared/places/places.ts";
import { changesBetween } from "../../shared/spec/edit/edit.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { stepTitle } from "../../shared/steps/plan.ts";
import type { StepId } from "../../shared/steps/steps.ts";
import type { Row } from "../store/fold.ts";

/** Something done to an earlier reading, in a word. */
export interface Act {
  readonly verb: "corrected" | "confirmed" | "dropped" | "struck" | "moved";
  readonly target: string;
}

export interface Entry {
  readonly id: string;
  readonly at: string;
  readonly by: string;
  /** When the shop received it, by the shop's clock; `at` is by the clock of the device that made it. */
  readonly receivedAt: string | undefined;
  readonly device: string;
  readonly kind: "said" | "photo" | "step" | "part" | "paper";
  text: string;
  readonly spoken: boolean;
  readonly clip?: string;
  readonly photo?: EventData["photo.taken"]["photo"];
  readonly statement?: string;
  /** Ids of readings taken or corrected here. */
  readonly readings: string[];
  readonly acts: Act[];
  readonly notes: Note[];
  readonly questions: Question[];
  /** Plain lines: "opened Rings", "went to cylinder 2". */
  readonly lines: string[];
  readonly unread: readonly string[];
  readonly places: Place[];
  step: StepId | undefined;
  /** Some of it has not reached the shop. */
  waits: boolean;
}

/** Commands come to events of their own in the same breath as the words. */
const SAME_BREATH_MS = 1500;

const ACTS = {
  "reading.corrected": "corrected",
  "reading.confirmed": "confirmed",
  "reading.rejected": "dropped",
  "reading.struck": "struck",
  "reading.retagged": "moved",
} as const satisfies Partial<Record<BenchEvent["type"], Act["verb"]>>;

class Maker {
  readonly entries: Entry[] = [];
  readonly #byUtterance = new Map<string, Entry>();
  readonly #lastSaid = new Map<string, Entry>();
  readonly #steps = new Map<string, StepId>();
  /** The sheet as it stood at each moment of the log: it names the steps. */
  #sheet: Spec | undefined;
  readonly #readingPlace = new Map<string, Place>();

  #start(row: Row, kind: Entry["kind"], text: string, more: Partial<Entry> = {}): Entry {
    const { event } = row;
    const entry: Entry = {
      id: event.id,
      at: event.at,
      by: event.by,
      receivedAt: row.receivedAt,
      device: event.device,
      kind,
      text,
      spoken: false,
      readings: [],
      acts: [],
      notes: [],
      questions: [],
      lines: [],
      unread: [],
      places: [],
      step: this.#steps.get(event.device),
      waits: row.seq === undefined,
      ...more,
    };
    this.entries.push(entry);
    return entry;
  }

  /** The entry of the words an event came from, or one of its own. */
  #home(row: Row, utterance: string | undefined, text: string): Entry {
    const entry = utterance === undefined ? undefined : this.#byUtterance.get(utterance);
    if (entry === undefined) return this.#start(row, "paper", text);
    entry.waits ||= row.seq === undefined;
    return entry;
  }

  /** The entry of the words that this command belongs to, when they were said in the same breath. */
  #breath({ event }: Row): Entry | undefined {
    const said = this.#lastSaid.get(event.device);
    return said !== undefined && Math.abs(Date.parse(event.at) - Date.parse(said.at)) < SAME_BREATH_MS ? said : undefined;
  }

  #line(row: Row, kind: Entry["kind"], text: string): Entry {
    const said = this.#breath(row);
    if (said === undefined) return this.#start(row, kind, text);
    said.lines.push(text);
    return said;
  }

  add(row: Row): void {
    const { event } = row;
    switch (event.type) {
      case "utterance.heard": {
        const { text, by, clip, unread } = event.data;
        const clipped = clip === undefined ? {} : { clip };
        const entry = this.#start(row, "said", text, { spoken: by === "voice", unread: unread ?? [], ...clipped });
        this.#byUtterance.set(event.id, entry);
        this.#lastSaid.set(event.device, entry);
        return;
      }
      case "reading.taken": {
        const entry = this.#home(row, event.data.utterance, "");
        entry.readings.push(event.id);
        entry.places.push(event.data.reading.place);
        entry.step = event.data.step ?? entry.step;
        this.#readingPlace.set(event.id, event.data.reading.place);
        return;
      }
      case "reading.corrected":
      case "reading.confirmed":
      case "reading.rejected":
      case "reading.struck":
      case "reading.retagged":
        this.#act(row, event);
        return;
      case "question.asked":
        this.#home(row, event.data.utterance, "").questions.push(event.data.question);
        return;
      case "note.made": {
        const entry = this.#home(row, event.data.utterance, "");
        entry.notes.push(event.data.note);
        if (event.data.note.place !== undefined) entry.places.push(event.data.note.place);
        return;
      }
      default:
        this.#other(row, event);
    }
  }

  #act(row: Row, event: Extract<BenchEvent, { type: keyof typeof ACTS }>): void {
    const { target, utterance } = event.data;
    const entry = this.#home(row, utterance, "");
    entry.acts.push({ verb: ACTS[event.type], target });
    const place = this.#readingPlace.get(target);
    if (place !== undefined) entry.places.push(place);
    if (event.type === "reading.retagged") entry.places.push(event.data.place);
  }

  #other(row: Row, event: BenchEvent): void {
    switch (event.type) {
      case "photo.taken": {
        const { photo, place, step, statement } = event.data;
        const said = statement === undefined ? {} : { statement };
        this.#start(row, "photo", placeLabel(place), {
          photo,
          places: [place],
          ...said,
          ...(step === undefined ? {} : { step }),
        });
        return;
      }
      case "step.opened":
        this.#steps.set(event.device, event.data.step);
        this.#line(row, "step", `opened: ${stepTitle(event.data.step, this.#sheet)}`).step = event.data.step;
        return;
      case "step.closed":
        this.#line(row, "step", `closed: ${stepTitle(event.data.step, this.#sheet)}`).step = event.data.step;
        return;
      case "place.opened":
        this.#breath(row)?.lines.push(`went to ${placeLabel(event.data.place)}`);
        return;
      case "part.changed":
        this.#line(row, "part", `${event.data.part.replaceAll("_", " ")}: ${event.data.what}`).places.push(event.data.place);
        return;
      default: {
        const before = this.#sheet;
        if (event.type === "build.opened" || event.type === "spec.revised") this.#sheet = event.data.spec;
        const text = PAPER[event.type]?.(event as never);
        if (text === undefined) return;
        const entry = this.#start(row, "paper", text);
        // Old and new beside each other, so that nobody has to compare two sheets.
        if (event.type === "spec.revised" && before !== undefined) entry.lines.push(...changesBetween(before, event.data.spec));
      }
    }
  }
}

type Wording = { readonly [T in BenchEvent["type"]]?: (event: Extract<BenchEvent, { type: T }>) => string };
const PAPER: Wording = {
  "build.opened": ({ data }) => `build opened: ${data.name}, ${data.spec.name}`,
  "spec.revised": ({ data }) =>
    `spec sheet, version ${data.spec.version}${data.why === undefined || data.why === "" ? "" : `: ${data.why}`}`,
  "instrument.kept": ({ data }) => `gauge kept: ${data.instrument}, ${data.kind}, reads to ${data.resolution} ${data.unit}`,
  "instrument.zeroed": ({ data }) => `gauge zeroed: ${data.instrument}, off by ${data.deviation} ${data.unit}`,
  "finding.accepted": ({ data }) => `left as it is by ${data.by}: ${data.why}`,
  "build.handed_over": ({ data }) => `handed over by ${data.by}${data.to === undefined ? "" : ` to ${data.to}`}`,
};

/** Entries of a log, oldest first. */
export function entriesOf(rows: readonly Row[]): Entry[] {
  const maker = new Maker();
  for (const row of rows) maker.add(row);
  return maker.entries;
}

export interface Sieve {
  readonly cylinder?: number;
  readonly step?: string;
}

/** Whether an entry is about a cylinder (a rod's number is its cylinder's) and of a step. */
export function passes(entry: Entry, { cylinder, step }: Sieve): boolean {
  if (step !== undefined && entry.step !== step) return false;
  return cylinder === undefined || entry.places.some((place) => (place.cylinder ?? place.rod) === cylinder);
}
