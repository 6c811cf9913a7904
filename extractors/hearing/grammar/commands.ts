// The commands, steps and bare places that may be said at any time, as phrases.

import type { Command } from "../../../shared/events/reading.ts";
import type { Engine, Spec } from "../../../shared/spec/spec.ts";
import { planOf } from "../../../shared/steps/plan.ts";
import { COMMAND_WORDS } from "../../speech/vocabulary/commands.ts";
import { isSayable } from "../words/dictionary.ts";
import { anyOf, chain, EMPTY, maybe, oneOf, type Phrase, tagged, weighted, words } from "./automaton.ts";
import { anyNoun, COUNTED, countTo, PLACE, slotPhrase } from "./places.ts";
import { saidApart } from "./vocabulary.ts";
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

const placed = (noun: string, count: number) => tagged(chain(words(noun), countTo(count)), PLACE);

const numberedPlaces = (engine: Engine): Phrase =>
  oneOf([placed("cylinder", engine.cylinders), placed("main", engine.mains), placed("rod", engine.cylinders)]);

/** A place said alone opens it: "cylinder three", "main two", "rod one", "crankpin two". */
const goto = (engine: Engine): Phrase =>
  weighted([chain(maybe(words("go to"), 0.5), numberedPlaces(engine)), 1], [anyNumbered(engine), BROKEN_OFF]);

/** What the parser has before the place or the part that a photo is of. */
const PHOTO_OF = saidApart(COMMAND_WORDS.find(({ command }) => command === "photo")?.heads ?? []).filter((head) =>
  head.endsWith(" of"),
);

/** "Photo of rod two", "take a picture of cylinder three", "photo of the front mark". */
const photoOf = (engine: Engine): Phrase =>
  chain(
    anyOf(PHOTO_OF),
    oneOf([anyNumbered(engine), chain(maybe(words("the")), oneOf([marked(engine), chain(slotPhrase("part", engine) ?? EMPTY)]))]),
  );

/** "The front mark", "the rear main": a place by its end. */
const marked = (engine: Engine): Phrase => chain(slotPhrase("end", engine) ?? EMPTY, maybe(anyOf(["mark", "main"])));

/** Every noun that the parser counts places by, with its number. */
const anyNumbered = (engine: Engine): Phrase => oneOf(COUNTED.map((slot) => anyNoun(slot, engine)));

function steps(spec: Spec): Phrase {
  const names = anyOf(planOf(spec).flatMap((step) => step.spoken.filter(isSayable)));
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
  const plain = Object.values(COMMAND_PHRASES).map(anyOf);
  return oneOf([
    ...plain,
    photoOf(spec.engine),
    goto(spec.engine),
    steps(spec),
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
