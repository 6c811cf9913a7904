// What a spoken command does to the book: one row a command, each giving events and, where needed, words to say.
import { type Build, focusOf } from "../../shared/build/index.ts";
import type { BenchEvent } from "../../shared/events/events.ts";
import type { Command } from "../../shared/events/reading.ts";
import { type Place, placeLabel } from "../../shared/places/places.ts";
import { stepTitle } from "../../shared/steps/plan.ts";
import { nextPlace } from "./next-place.ts";
import { type Stamp, stampEvent } from "./stamp.ts";

export interface CommandCall {
  readonly command: Command;
  readonly build: Build;
  readonly stamp: Stamp;
  readonly utterance: string | undefined;
}

export interface CommandResult {
  readonly events: readonly BenchEvent[];
  readonly say?: string;
}

const NOTHING: CommandResult = { events: [] };

const from = (utterance: string | undefined) => (utterance === undefined ? {} : { utterance });

/** The reading that "yes" or "wrong" speaks of: the newest one of this device that waits. */
function newestWaiting(build: Build, device: string): string | undefined {
  let id: string | undefined;
  for (const logged of build.waiting.values()) if (logged.device === device) id = logged.id;
  return id;
}

function strike({ build, stamp, utterance }: CommandCall): CommandResult {
  const target = focusOf(build, stamp.device).last;
  if (target === undefined) return { events: [], say: "nothing to strike" };
  return { events: [stampEvent(stamp, "reading.struck", { target, ...from(utterance) })], say: "struck" };
}

function confirm({ build, stamp, utterance }: CommandCall): CommandResult {
  const target = newestWaiting(build, stamp.device);
  if (target === undefined) return { events: [], say: "nothing waiting" };
  return { events: [stampEvent(stamp, "reading.confirmed", { target, ...from(utterance) })], say: "confirmed" };
}

function reject(call: CommandCall): CommandResult {
  const { build, stamp, utterance } = call;
  const target = newestWaiting(build, stamp.device);
  // With nothing waiting, "wrong" speaks of the reading just said back.
  if (target === undefined) return strike(call);
  return { events: [stampEvent(stamp, "reading.rejected", { target, ...from(utterance) })], say: "dropped" };
}

/** A re-tag says "three, not two" without saying three of what: the slot that the reading already has. */
function retaggedPlace(was: Place, said: Place): Place {
  const number = said.cylinder ?? said.rod ?? said.main;
  const slot = (["main", "rod", "cylinder"] as const).find((key) => was[key] !== undefined);
  if (number === undefined || slot === undefined || said[slot] !== undefined) return { ...was, ...said };
  const { cylinder: _c, rod: _r, main: _m, ...rest } = said;
  return { ...was, ...rest, [slot]: number };
}

function retag({ command, build, stamp, utterance }: CommandCall): CommandResult {
  const target = focusOf(build, stamp.device).last;
  const logged = target === undefined ? undefined : build.readings.get(target);
  if (logged === undefined || command.place === undefined) return { events: [], say: "nothing to move" };
  const place = retaggedPlace(logged.reading.place, command.place);
  return {
    events: [stampEvent(stamp, "reading.retagged", { target: logged.id, place, ...from(utterance) })],
    say: `moved to ${placeLabel(place)}`,
  };
}

function goTo(stamp: Stamp, place: Place): CommandResult {
  return { events: [stampEvent(stamp, "place.opened", { place })], say: placeLabel(place) };
}

function next({ build, stamp }: CommandCall): CommandResult {
  const place = nextPlace(focusOf(build, stamp.device), build.spec.engine);
  return place === undefined ? { events: [], say: "that was the last one" } : goTo(stamp, place);
}

function openStep({ command, build, stamp }: CommandCall): CommandResult {
  if (command.step === undefined) return NOTHING;
  const title = stepTitle(command.step, build.spec);
  return { events: [stampEvent(stamp, "step.opened", { step: command.step })], say: title };
}

function closeStep({ build, stamp }: CommandCall): CommandResult {
  const { step } = focusOf(build, stamp.device);
  if (step === undefined) return { events: [], say: "no step is open" };
  return { events: [stampEvent(stamp, "step.closed", { step })], say: "step closed" };
}

/** Commands that only the screen or the loudspeaker acts on leave no event. */
export const COMMAND_ROWS: Readonly<Record<Command["command"], (call: CommandCall) => CommandResult>> = {
  undo: strike,
  confirm,
  reject,
  retag,
  next,
  done: closeStep,
  step: openStep,
  goto: ({ command, stamp }) => (command.place === undefined ? NOTHING : goTo(stamp, command.place)),
  // A correction and a copy carry their value as a reading, which the logger files.
  correct: () => NOTHING,
  copy: () => NOTHING,
  repeat: () => NOTHING,
  photo: () => NOTHING,
  pause: () => NOTHING,
  resume: () => NOTHING,
};
