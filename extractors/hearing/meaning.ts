// A sentence in, what it comes to as one comparable text out, so that two ways to say one thing agree.
import type { Context } from "../../shared/events/reading.ts";
import { placeKey } from "../../shared/places/places.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { parse } from "../speech/index.ts";

/** Equal for sentences that would log the same; the sentence itself where nothing would be logged. */
export function meaningOf(text: string, context: Context, spec: Spec): string {
  const { readings, commands, notes, questions } = parse(text, context, spec);
  if (readings.length + commands.length === 0)
    return `${notes.map((note) => note.kind)} ${questions.map(({ code }) => code)} ${text}`;
  const said = readings.map(
    ({ quantity, place, digits, unit, over }) => `${quantity} ${placeKey(place)} ${digits} ${unit} ${over?.digits ?? ""}`,
  );
  const done = commands.map(
    ({ command, place, step }) => `${command} ${place === undefined ? "" : placeKey(place)} ${step ?? ""}`,
  );
  return [...said, ...done].join("; ");
}
