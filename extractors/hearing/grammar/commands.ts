// The commands, steps and bare places that may be said at any time, as phrases.

import type { Command } from "../../../shared/events/reading.ts";
import type { Engine, Spec } from "../../../shared/spec/spec.ts";
import { STEPS } from "../../../shared/steps/steps.ts";
import { isSayable } from "../words/dictionary.ts";
import { chain, EMPTY, maybe, oneOf, type Phrase, tagged, weighted, words } from "./automaton.ts";
import { countTo, PLACE } from "./places.ts";
import { BROKEN_OFF } from "./weights.ts";

/** Spoken forms by command; those that carry a place or a value are built below. */
export const COMMAND_PHRASES: Readonly<Partial<Record<Command["command"], readonly string[]>>> = {
  undo: ["scratch that", "strike the last one", "strike that", "undo", "undo that"],
  confirm: ["confirm", "confirmed", "yes", "correct"],
  reject: ["wrong", "no"],
  next: ["next", "next cylinder", "next one"],
  repeat: ["say again", "repeat", "say that again"],
  photo: ["photo", "take a photo", "take a picture", "picture"],
  pause: ["pause", "stop listening"],
  resume: ["resume", "start listening"],
  done: ["done", "step done", "all done", "finished"],
};

const spoken = (forms: readonly string[]) => oneOf(forms.map((form) => words(form)));
const placed = (noun: string, count: number) => tagged(chain(words(noun), countTo(count)), PLACE);

const numberedPlaces = (engine: Engine): Phrase =>
  oneOf([placed("cylinder", engine.cylinders), placed("main", engine.mains), placed("rod", engine.cylinders)]);

/** Names of parts that their numbers are said with, and whose readings may follow. */
const numberedParts = (engine: Engine): Phrase =>
  oneOf([placed("crankpin", engine.cylinders), placed("piston", engine.cylinders), placed("main journal", engine.mains)]);

/** A place said alone opens it: "cylinder three", "main two", "rod one", "crankpin two". */
const goto = (engine: Engine): Phrase =>
  weighted([chain(maybe(words("go to"), 0.5), numberedPlaces(engine)), 1], [numberedParts(engine), BROKEN_OFF]);

/** "photo of rod two", "take a picture of cylinder three". */
const photoOf = (engine: Engine): Phrase =>
  chain(spoken(COMMAND_PHRASES.photo ?? []), maybe(words("of")), numberedPlaces(engine));

function steps(): Phrase {
  const names = oneOf(STEPS.flatMap((step) => step.spoken.filter(isSayable).map((form) => words(form))));
  return chain(oneOf([words("step"), words("open"), words("start")]), names);
}

function retag(engine: Engine): Phrase {
  const number = tagged(countTo(engine.cylinders), PLACE);
  const noun = tagged(oneOf([words("number"), words("cylinder")]), PLACE);
  return oneOf([
    chain(words("no"), noun, number, maybe(chain(words("not"), number))),
    chain(words("no"), maybe(noun), number, words("not"), number),
  ]);
}

const copy = (engine: Engine): Phrase =>
  chain(words("same on"), tagged(maybe(words("number")), PLACE), tagged(countTo(engine.cylinders), PLACE));

/** Every command that needs no value. `corrects` and `copies` tell whether there is a last reading to speak of. */
export function commandPhrase(spec: Spec, hasLast: boolean): Phrase {
  const plain = Object.values(COMMAND_PHRASES).map(spoken);
  return oneOf([
    ...plain,
    photoOf(spec.engine),
    goto(spec.engine),
    steps(),
    ...(hasLast ? [retag(spec.engine), copy(spec.engine)] : []),
  ]);
}

/** What stands before a corrected value. */
export const CORRECTION_LEAD: Phrase = oneOf([
  words("scratch that make it"),
  words("make it"),
  words("no make it"),
  chain(words("scratch that"), EMPTY),
  words("correct that"),
]);
