// What each type of event does to the build: one function a type, in one table.
import type { BenchEvent, EventType } from "../events/events.ts";
import { placeKey } from "../places/places.ts";
import { sameDimension } from "../units/convert.ts";
import { UNITS } from "../units/units.ts";
import { ask, focusOf, moveFocus } from "./focus.ts";
import { changePart } from "./part-change.ts";
import * as readings from "./readings.ts";
import { setAside } from "./set-aside.ts";
import type { Build, LoggedPhoto, Touched } from "./types.ts";

export type Handler<T extends EventType> = (build: Build, event: Extract<BenchEvent, { type: T }>) => Touched;

const photoKeys = (photo: LoggedPhoto): Touched => [`photo:${photo.proof ?? ""}|${placeKey(photo.place)}`];

export const HANDLERS: { readonly [T in EventType]: Handler<T> } = {
  // A second opening of the same build adds nothing: the first one stands.
  "build.opened": () => [],
  "spec.revised": (build, event) => {
    build.spec = event.data.spec;
    return ["spec"];
  },
  "step.opened": (build, event) => {
    const { step } = event.data;
    const known = build.steps.get(step);
    if (known === undefined) build.steps.set(step, { step, opened: event.at, openedOrder: build.count });
    else delete known.closed;
    moveFocus(build, event.device, { step, place: {} });
    return [`step:${step}`];
  },
  "place.opened": (build, event) => {
    moveFocus(build, event.device, { place: event.data.place });
    return [];
  },
  "utterance.heard": (build, event) => {
    const { text, by, clip } = event.data;
    build.utterances.set(event.id, { id: event.id, at: event.at, text, by, ...(clip === undefined ? {} : { clip }) });
    delete focusOf(build, event.device).question;
    return [];
  },
  "reading.taken": readings.take,
  "reading.confirmed": readings.confirm,
  "reading.rejected": readings.reject,
  "reading.corrected": readings.correct,
  "reading.retagged": readings.retag,
  "reading.struck": readings.strike,
  "question.asked": (build, event) => {
    ask(focusOf(build, event.device), event.data.question);
    return [];
  },
  "note.made": (build, event) => {
    const { note, step, utterance } = event.data;
    build.notes.push({
      id: event.id,
      order: build.count,
      at: event.at,
      by: event.by,
      note,
      ...(step === undefined ? {} : { step }),
      ...(utterance === undefined ? {} : { utterance }),
    });
    return [`note:${note.kind}|${placeKey(note.place ?? {})}`];
  },
  "photo.taken": (build, event) => {
    const { photo, place, step, proof, statement } = event.data;
    const logged: LoggedPhoto = {
      id: event.id,
      order: build.count,
      at: event.at,
      by: event.by,
      device: event.device,
      photo,
      place,
      marks: [],
      ...(step === undefined ? {} : { step }),
      ...(proof === undefined ? {} : { proof }),
      ...(statement === undefined ? {} : { statement }),
    };
    build.photos.set(event.id, logged);
    return photoKeys(logged);
  },
  "photo.filed": (build, event) => {
    const photo = build.photos.get(event.data.target);
    if (photo === undefined) return [];
    const before = photoKeys(photo);
    photo.place = event.data.place;
    if (event.data.step !== undefined) photo.step = event.data.step;
    if (event.data.proof !== undefined) photo.proof = event.data.proof;
    return [...before, ...photoKeys(photo)];
  },
  "photo.marked": (build, event) => {
    const photo = build.photos.get(event.data.target);
    if (photo !== undefined) photo.marks = event.data.marks;
    return [];
  },
  "part.changed": changePart,
  "instrument.kept": (build, event) => {
    const { instrument, ...rest } = event.data;
    build.instruments.set(instrument, { id: instrument, kept: event.at, ...rest });
    return [`instrument:${instrument}`];
  },
  "instrument.zeroed": (build, event) => {
    const { instrument, deviation, unit } = event.data;
    const known = build.instruments.get(instrument);
    if (known !== undefined && !sameDimension(unit, known.unit)) {
      const want = UNITS[known.unit].dimension;
      return setAside(build, event, "wrong_unit", `Expected a unit of ${want} for the zero of ${instrument}, got ${unit}`);
    }
    if (known !== undefined) known.zero = { event: event.id, at: event.at, deviation, unit };
    return [`instrument:${instrument}`];
  },
  "finding.accepted": (build, event) => {
    build.accepted.push({ id: event.id, at: event.at, ...event.data });
    return [`accepted:${event.data.rule}|${placeKey(event.data.place)}`];
  },
  "step.closed": (build, event) => {
    const { step } = event.data;
    const known = build.steps.get(step);
    if (known === undefined) build.steps.set(step, { step, opened: event.at, openedOrder: build.count, closed: event.at });
    else known.closed = event.at;
    return [`step:${step}`];
  },
  "build.handed_over": (build, event) => {
    build.handedOver = { event: event.id, at: event.at, by: event.data.by, head: event.data.head };
    return ["handed_over"];
  },
};
