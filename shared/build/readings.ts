// How readings enter a build, wait, are confirmed, corrected, re-tagged, struck and superseded. Nothing is ever deleted.
import type { BenchEvent, EventType } from "../events/events.ts";
import type { Reading } from "../events/reading.ts";
import { placeKey } from "../places/places.ts";
import { conditionFor } from "./condition.ts";
import { focusOf } from "./focus.ts";
import type { List } from "./layers.ts";
import { settle } from "./standing.ts";
import type { Build, LoggedReading, Touched } from "./types.ts";

type Of<T extends EventType> = Extract<BenchEvent, { type: T }>;

const keyOf = (reading: Reading) => `${reading.quantity}|${placeKey(reading.place)}`;
const touched = (...readings: Reading[]): Touched => [...new Set(readings.map((reading) => `reading:${keyOf(reading)}`))];

function listFor<K, V>(map: Map<K, List<V>>, key: K): List<V> {
  let list = map.get(key);
  if (list === undefined) {
    list = [];
    map.set(key, list);
  }
  return list;
}

/** Put a reading into a list that is kept in the order of taking, so that "newest" is its end. Looked for from there. */
function file(list: List<LoggedReading>, logged: LoggedReading): void {
  let at = list.length;
  while (at > 0 && (list.at(at - 1)?.order ?? 0) > logged.order) at -= 1;
  if (at === list.length) list.push(logged);
  else list.splice(at, 0, logged);
}

function unfile(list: List<LoggedReading>, logged: LoggedReading): void {
  for (let at = list.length - 1; at >= 0; at -= 1) {
    if (list.at(at) !== logged) continue;
    list.splice(at, 1);
    return;
  }
}

export function take(build: Build, event: Of<"reading.taken">): Touched {
  const { reading, step, instrument, utterance } = event.data;
  const logged: LoggedReading = {
    id: event.id,
    order: build.count,
    at: event.at,
    by: event.by,
    device: event.device,
    reading,
    condition: event.data.condition ?? reading.condition ?? conditionFor(reading.quantity, step),
    status: reading.do === "accept" ? "counted" : "waiting",
    revisions: [],
    evidence: utterance === undefined ? [event.id] : [utterance, event.id],
    ...(step === undefined ? {} : { step }),
    ...(instrument === undefined ? {} : { instrument }),
    ...(utterance === undefined ? {} : { utterance }),
  };
  build.readings.set(event.id, logged);
  listFor(build.byQuantity, reading.quantity).push(logged);
  listFor(build.byDevice, event.device).push(logged);
  file(listFor(build.byKey, keyOf(reading)), logged);
  if (logged.status === "waiting") build.waiting.set(logged.id, logged);
  settle(build, keyOf(reading), logged.condition, logged);
  const focus = focusOf(build, event.device);
  focus.last = event.id;
  focus.quantity = reading.quantity;
  focus.place = reading.place;
  return touched(reading);
}

function known(build: Build, target: string, event: string): LoggedReading | undefined {
  const logged = build.readings.get(target);
  logged?.evidence.push(event);
  return logged;
}

function setStatus(build: Build, logged: LoggedReading, status: LoggedReading["status"]): Touched {
  logged.status = status;
  build.waiting.delete(logged.id);
  settle(build, keyOf(logged.reading), logged.condition, logged);
  return touched(logged.reading);
}

/** Answer a waiting reading. One that no longer waits takes no answer, and the event is no evidence of it. */
function answer(build: Build, target: string, event: string, status: "counted" | "rejected"): Touched {
  if (build.readings.get(target)?.status !== "waiting") return [];
  const logged = known(build, target, event);
  return logged === undefined ? [] : setStatus(build, logged, status);
}

// A yes that comes after a strike does not bring the reading back.
export function confirm(build: Build, event: Of<"reading.confirmed">): Touched {
  return answer(build, event.data.target, event.id, "counted");
}

export function reject(build: Build, event: Of<"reading.rejected">): Touched {
  return answer(build, event.data.target, event.id, "rejected");
}

export function strike(build: Build, event: Of<"reading.struck">): Touched {
  const logged = known(build, event.data.target, event.id);
  if (logged === undefined) return [];
  const focus = focusOf(build, event.device);
  if (focus.last === logged.id) {
    const before = standingBefore(build, logged);
    if (before === undefined) delete focus.last;
    else focus.last = before.id;
  }
  return setStatus(build, logged, "struck");
}

/** The reading taken before this one on the same device that still stands or waits: what a second "strike that" means. */
function standingBefore(build: Build, logged: LoggedReading): LoggedReading | undefined {
  return build.byDevice
    .get(logged.device)
    ?.findLast((other) => other.order < logged.order && (other.status === "counted" || other.status === "waiting"));
}

/** Replace what a reading says, keeping what it said before; it stands or waits as the new words deserve. */
function revise(build: Build, logged: LoggedReading, reading: Reading, event: string): Touched {
  const before = logged.reading;
  logged.revisions.push({ reading: before, event });
  unfile(listFor(build.byKey, keyOf(before)), logged);
  logged.reading = reading;
  logged.status = reading.do === "accept" ? "counted" : "waiting";
  file(listFor(build.byKey, keyOf(reading)), logged);
  if (logged.status === "waiting") build.waiting.set(logged.id, logged);
  else build.waiting.delete(logged.id);
  if (reading.quantity !== before.quantity) {
    unfile(listFor(build.byQuantity, before.quantity), logged);
    file(listFor(build.byQuantity, reading.quantity), logged);
  }
  settle(build, keyOf(before), logged.condition, logged);
  settle(build, keyOf(reading), logged.condition, logged);
  return touched(before, reading);
}

export function correct(build: Build, event: Of<"reading.corrected">): Touched {
  const logged = known(build, event.data.target, event.id);
  if (logged === undefined) return [];
  const focus = focusOf(build, event.device);
  focus.last = logged.id;
  focus.quantity = event.data.reading.quantity;
  focus.place = event.data.reading.place;
  return revise(build, logged, event.data.reading, event.id);
}

export function retag(build: Build, event: Of<"reading.retagged">): Touched {
  const logged = known(build, event.data.target, event.id);
  if (logged === undefined) return [];
  focusOf(build, event.device).place = event.data.place;
  return revise(build, logged, { ...logged.reading, place: event.data.place }, event.id);
}
