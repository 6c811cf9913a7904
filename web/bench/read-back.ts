// What is said back after words were logged: short, the figure first, the verdict, and the limit that decided.

import { placeWords, valueWords } from "../../extractors/speech/index.ts";
import type { Build, LoggedReading } from "../../shared/build/index.ts";
import { type Parsed, type Question, quantitiesAsked } from "../../shared/events/reading.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import type { QuantityId } from "../../shared/quantities/types.ts";
import type { Finding } from "../../shared/rules/index.ts";
import { systemOf } from "../../shared/spec/sizes.ts";
import { findingsByEvent, MARK_WORDS, type MarkName, markOf } from "../parts/verdict.ts";
import type { Outcome } from "../store/words.ts";
import { isNearBound, sayBound } from "./said-limit.ts";

export type Mood = "accepted" | "question" | "done" | "nothing";

export interface ReadBack {
  readonly text: string;
  readonly mood: Mood;
  /** The reading it speaks of, when there is one. */
  readonly reading?: LoggedReading;
  readonly mark?: MarkName;
  /** The finding that decided. */
  readonly finding?: Finding;
  /** Asks for what is most likely about to be said anyway: to be said only where nobody goes on. */
  readonly later?: boolean;
  /** What that figure is of. */
  readonly asked?: QuantityId;
}

/** Why a reading waits, to be said; a code that has no words of its own is said as it stands. */
const BECAUSE: Readonly<Record<string, string>> = {
  always: "this one is always asked",
  ambiguous: "it can be read two ways",
  digits: "digits may be missing",
  too_fine: "finer than the gauge reads",
  guessed_quantity: "what was measured was not said",
  context_number: "only a number was said",
  unit: "the unit is in doubt",
  sign: "over or under is in doubt",
  list: "a list was said at once",
  hedged: "it was said to be about",
  repaired: "a word was put right",
  stray_words: "some words were not read",
  copied: "it was copied from another place",
  heard_unsure: "it was not heard for sure",
  digits_missing: "digits may be missing",
  out_of_band: "far from what it should be",
  not_of_engine: "this engine has none",
};

export function becauseWords(code: string): string {
  return BECAUSE[code] ?? code.replaceAll("_", " ");
}

/** Answer to an utterance: its newest reading with verdict, else what its commands say, else its question. */
export function readBackOutcome(outcome: Outcome, build: Build, findings: readonly Finding[]): ReadBack {
  const question = outcome.parsed.questions[0];
  const taken = outcome.events.flatMap((event) => {
    if (event.type === "reading.taken") return [event.id];
    return event.type === "reading.corrected" || event.type === "reading.retagged" || event.type === "reading.confirmed"
      ? [event.data.target]
      : [];
  });
  const logged = taken.flatMap((id) => build.readings.get(id) ?? []);
  const last = logged.at(-1);
  if (last === undefined) {
    if (question?.code === "need_number") return askForFigure(outcome, question);
    if (question !== undefined) return { text: question.say, mood: "question" };
    const said = outcome.say.join(". ");
    if (outcome.parsed.notes.length > 0) return { text: said || "noted", mood: "done" };
    return said === "" ? { text: "", mood: outcome.events.length > 0 ? "done" : "nothing" } : { text: said, mood: "done" };
  }
  const byEvent = findingsByEvent(findings);
  const parts = logged.map((one) => sayReading(build, one, byEvent.get(one.id) ?? [], logged.length > 1));
  const finding = byEvent.get(last.id)?.[0];
  const mark = markOf(last, byEvent.get(last.id) ?? []);
  const asks = question === undefined ? "" : `. ${question.say}`;
  const mood = last.status === "waiting" || question !== undefined ? "question" : "accepted";
  const unread = last.status === "waiting" ? outcome.parsed.unread : [];
  const unused = unread.length === 0 ? "" : ` Not understood: ${unread.join(", ")}`;
  return {
    text: `${parts.join(". ")}${unused}${asks}`,
    mood,
    reading: last,
    mark,
    ...(finding === undefined ? {} : { finding }),
  };
}

/** "Rod three, side clearance. What is the figure?", in a while. */
function askForFigure({ parsed }: Outcome, question: Question): ReadBack {
  const place = parsed.commands.find(({ command }) => command === "goto")?.place;
  const [only, ...others] = quantitiesAsked(question);
  const asked = others.length === 0 ? only : undefined;
  const named = [place === undefined ? "" : placeWords(place), asked === undefined ? "" : QUANTITIES[asked].said];
  const text = [named.filter((part) => part !== "").join(", "), question.say].filter((part) => part !== "").join(". ");
  return { text, mood: "question", later: true, ...(asked === undefined ? {} : { asked }) };
}

function sayReading(build: Build, logged: LoggedReading, findings: readonly Finding[], brief: boolean): string {
  const { reading } = logged;
  const mark = markOf(logged, findings);
  const figure = valueWords(reading, systemOf(build.spec));
  const head = `${placeWords(reading.place) || QUANTITIES[reading.quantity].said}, ${figure}`;
  if (mark === "waiting") {
    const why = reading.because === undefined ? "" : `, ${becauseWords(reading.because)}`;
    return `${head}${why}. Yes or no?`;
  }
  if (mark === "free") return head;
  const decided = mark === "pass" ? findings.find(isNearBound) : findings[0];
  const bound = brief || decided === undefined ? "" : sayBound(decided);
  // The unit of the figure, which was just said, is not said twice.
  const unit = / (thou|hundredths)$/.exec(figure)?.[0];
  const short = unit !== undefined && bound.endsWith(unit) ? bound.slice(0, -unit.length) : bound;
  return `${head}, ${MARK_WORDS[mark]}${short === "" ? "" : `; ${short}`}`;
}

/** The last reading of a device that still stands or waits, as it would be said again. */
export function lastReadBack(build: Build, device: string, findings: readonly Finding[]): ReadBack | undefined {
  const id = build.focus.get(device)?.last;
  const logged = id === undefined ? undefined : build.readings.get(id);
  if (logged === undefined) return undefined;
  const [finding, ...rest] = findingsByEvent(findings).get(logged.id) ?? [];
  const all = finding === undefined ? [] : [finding, ...rest];
  const mood = logged.status === "waiting" ? "question" : "accepted";
  const text = sayReading(build, logged, all, false);
  return { text, mood, reading: logged, mark: markOf(logged, all), ...(finding === undefined ? {} : { finding }) };
}

/** What to say when nothing of the sentence can be used and it has to be said again; undefined when it can. */
export function askedAgain(parsed: Parsed): string | undefined {
  const [question] = parsed.questions;
  const nothing = parsed.readings.length + parsed.commands.length + parsed.notes.length === 0;
  return nothing && question?.code === "heard_unsure" ? question.say : undefined;
}
