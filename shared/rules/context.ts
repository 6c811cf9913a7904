// What rules look things up in: the build, its spec's limits by figure, and indexes of places, photos and notes.
// Kept up event by event, so that no look-up costs more than the engine has places.
import { type Build, type Instrument, type LoggedNote, type LoggedPhoto, type LoggedReading, latest } from "../build/build.ts";
import { standingAt } from "../build/standing.ts";
import type { BenchEvent } from "../events/events.ts";
import { type Place, type PlaceKey, placeKey } from "../places/places.ts";
import type { QuantityId } from "../quantities/types.ts";
import type { Condition, Limit, Spec } from "../spec/spec.ts";
import { readKey } from "./key.ts";
import { PhotoIndex } from "./photo-index.ts";

/** The newest of one name at each place. */
type ByPlace<T> = Map<string, T>;
type Places = Map<number, Map<string, Place>>;

export class RuleContext {
  readonly build: Build;
  readonly #places = new Map<QuantityId, Places>();
  #photoIndex = new PhotoIndex();
  /** Set while the photo index is that of the build below a draft. */
  #borrowed = false;
  readonly #notes = new Map<string, ByPlace<LoggedNote>>();
  readonly #known = new Map<string, unknown>();
  #limitsOf: Spec | undefined;
  #limits = new Map<string, Limit[]>();

  /** Index a build as it stands; for a draft of a build, from the other's indexes, whose size is bound by the engine. */
  constructor(build: Build, below?: RuleContext) {
    this.build = build;
    if (below === undefined) {
      for (const key of build.byKey.keys()) this.#rememberPlace(`reading:${key}`);
      for (const photo of build.photos.values()) this.#photoIndex.file(photo);
      for (const note of build.notes) this.#fileNote(note);
      return;
    }
    for (const [quantity, places] of below.#places)
      this.#places.set(quantity, new Map([...places].map(([number, byKey]) => [number, new Map(byKey)])));
    for (const [kind, notes] of below.#notes) this.#notes.set(kind, new Map(notes));
    this.#photoIndex = below.#photoIndex;
    this.#borrowed = true;
  }

  get photoIndex(): PhotoIndex {
    return this.#photoIndex;
  }

  get spec(): Spec {
    return this.build.spec;
  }

  /** Take in one event that the build has just folded, with the keys it touched. */
  note(event: BenchEvent, touched: readonly string[]): void {
    this.#known.clear();
    for (const key of touched) if (key.startsWith("reading:")) this.#rememberPlace(key);
    if (event.type === "photo.taken" || event.type === "photo.filed") {
      const photo = this.build.photos.get(event.type === "photo.taken" ? event.id : event.data.target);
      if (this.#borrowed) this.#indexPhotos();
      if (photo !== undefined) this.#photoIndex.file(photo);
    }
    const last = this.build.notes.at(-1);
    if (event.type === "note.made" && last?.id === event.id) this.#fileNote(last);
  }

  /** Something worked out once between two events, however many subjects ask for it. */
  once<T>(name: string, work: () => T): T {
    if (!this.#known.has(name)) this.#known.set(name, work());
    return this.#known.get(name) as T;
  }

  #rememberPlace(key: string): void {
    const { name, place } = readKey(key);
    const quantity = name as QuantityId;
    let numbers = this.#places.get(quantity);
    if (numbers === undefined) {
      numbers = new Map();
      this.#places.set(quantity, numbers);
    }
    const number = numberOf(place);
    let places = numbers.get(number);
    if (places === undefined) {
      places = new Map();
      numbers.set(number, places);
    }
    places.set(placeKey(place), place);
  }

  /** The other's index must not learn of a draft's photos: it is made anew, at a cost that grows with the photos. */
  #indexPhotos(): void {
    this.#photoIndex = new PhotoIndex(this.#photoIndex);
    this.#borrowed = false;
    for (const photo of this.build.photos.values()) this.#photoIndex.file(photo);
  }

  #fileNote(note: LoggedNote): void {
    const { kind } = note.note;
    const places = this.#notes.get(kind) ?? new Map<string, LoggedNote>();
    this.#notes.set(kind, places);
    places.set(placeKey(note.note.place ?? {}), note);
  }

  /** Every place where a quantity has ever been read. */
  *places(quantity: QuantityId): Iterable<Place> {
    for (const places of this.#places.get(quantity)?.values() ?? []) yield* places.values();
  }

  /** Counted readings of a quantity at every place that has the slots of the pattern, one a place. */
  within(quantity: QuantityId, pattern: Place, condition?: Condition): LoggedReading[] {
    const numbers = this.#places.get(quantity);
    if (numbers === undefined) return [];
    const number = numberOf(pattern);
    const candidates = number === 0 ? [...numbers.values()] : [numbers.get(number) ?? EMPTY];
    const slots = Object.entries(pattern) as [PlaceKey, unknown][];
    const found: LoggedReading[] = [];
    for (const places of candidates) {
      for (const [key, place] of places) {
        if (!slots.every(([slot, value]) => place[slot] === value)) continue;
        const logged = standingAt(this.build, `${quantity}|${key}`, condition);
        if (logged !== undefined) found.push(logged);
      }
    }
    return found;
  }

  /** The newest counted reading of a quantity at exactly this place; of a condition when one is asked. */
  latest(quantity: QuantityId, place: Place, condition?: Condition): LoggedReading | undefined {
    return latest(this.build, quantity, place, condition);
  }

  /** Newest photo for a proof (or, under `step:ID`, of a step) at each place it was taken of. */
  photos(name: string): LoggedPhoto[] {
    return this.photoIndex.newest(name);
  }

  /** Newest note of a kind at each place. */
  notes(kind: string): LoggedNote[] {
    return [...(this.#notes.get(kind)?.values() ?? [])];
  }

  /** Newest note of a kind at exactly this place. */
  noteAt(kind: string, place: Place): LoggedNote | undefined {
    return this.#notes.get(kind)?.get(placeKey(place));
  }

  /** The spec's limits on a quantity or figure. */
  limitsOn(on: string): readonly Limit[] {
    if (this.#limitsOf !== this.spec) {
      this.#limitsOf = this.spec;
      this.#limits = new Map();
      for (const limit of this.spec.limits) {
        const list = this.#limits.get(limit.on);
        if (list === undefined) this.#limits.set(limit.on, [limit]);
        else list.push(limit);
      }
    }
    return this.#limits.get(on) ?? [];
  }

  /** The instrument a reading was taken with: the one it names, else the only one kept for its quantity. */
  instrumentOf(logged: LoggedReading): Instrument | undefined {
    if (logged.instrument !== undefined) return this.build.instruments.get(logged.instrument);
    let found: Instrument | undefined;
    for (const instrument of this.build.instruments.values()) {
      if (!instrument.quantities.includes(logged.reading.quantity)) continue;
      if (found !== undefined) return undefined;
      found = instrument;
    }
    return found;
  }
}

const EMPTY: ReadonlyMap<string, Place> = new Map();

/** The number that most places are told apart by; 0 for none. */
function numberOf({ cylinder, rod, main }: Place): number {
  return cylinder ?? rod ?? main ?? 0;
}
