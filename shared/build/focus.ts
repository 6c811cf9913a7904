// Where each device is in the job, and the context that gives the next utterance.
import { type Context, type Question, quantitiesAsked } from "../events/reading.ts";
import type { Build, Focus } from "./types.ts";

/** The focus of a device, made empty on first use. */
export function focusOf(build: Build, device: string): Focus {
  let focus = build.focus.get(device);
  if (focus === undefined) {
    focus = { place: {} };
    build.focus.set(device, focus);
  }
  return focus;
}

/** Move a device to another step or place; a question that was open is let go. */
export function moveFocus(build: Build, device: string, to: Partial<Focus>): void {
  const focus = focusOf(build, device);
  Object.assign(focus, to);
  delete focus.question;
  if (to.step !== undefined) delete focus.quantity;
}

/** A question is open; where it asks for a figure of what was named, the next figure is of that and of nothing else. */
export function ask(focus: Focus, question: Question): void {
  focus.question = question;
  const asked = quantitiesAsked(question);
  const [only, ...others] = asked;
  if (only === undefined || asked.some((id) => id === focus.quantity)) return;
  if (others.length === 0) focus.quantity = only;
  else delete focus.quantity;
}

/** What the parser is told of the moment: place and quantity in hand, the step that is open, the last reading. */
export function contextOf(build: Build, device: string): Context {
  const focus = build.focus.get(device);
  const { units } = build.spec;
  const system = units === undefined ? {} : { unit_system: units };
  if (focus === undefined) return system;
  const last = focus.last === undefined ? undefined : build.readings.get(focus.last)?.reading;
  return {
    ...system,
    ...(focus.quantity === undefined ? {} : { quantity: focus.quantity }),
    ...(Object.keys(focus.place).length === 0 ? {} : { place: focus.place }),
    ...(focus.step === undefined ? {} : { step: focus.step }),
    ...(last === undefined ? {} : { last: { quantity: last.quantity, place: last.place, value: last.value, unit: last.unit } }),
  };
}
