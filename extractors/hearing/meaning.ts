// A sentence in, what it comes to as one comparable text out, so that two ways to say one thing agree.
import type { Context } from "../../shared/events/reading.ts";
import { placeKey } from "../../shared/places/places.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { parse } from "../speech/index.ts";

export interface Meaning {
  /** Equal for sentences that would log the same; the sentence itself where nothing would be logged. */
  readonly meaning: string;
  /** Whether it would be logged at once if it were typed: in its band, with a place, nothing to ask. */
  readonly plain: boolean;
  /** Whether it is a command and nothing else. */
  readonly command: boolean;
}

export function meaningOf(text: string, context: Context, spec: Spec): Meaning {
  if (text === "") return { meaning: "", plain: false, command: false };
  const { readings, commands, notes, questions } = parse(text, context, spec);
  if (readings.length + commands.length === 0)
    return {
      meaning: `${notes.map((note) => note.kind)} ${questions.map(({ code }) => code)} ${text}`,
      plain: false,
      command: false,
    };
  const said = readings.map(
    ({ quantity, place, digits, unit, over }) => `${quantity} ${placeKey(place)} ${digits} ${unit} ${over?.digits ?? ""}`,
  );
  const done = commands.map(
    ({ command, place, step }) => `${command} ${place === undefined ? "" : placeKey(place)} ${step ?? ""}`,
  );
  const plain = questions.length === 0 && readings.every((reading) => reading.do === "accept");
  return { meaning: [...said, ...done].join("; "), plain, command: readings.length === 0 };
}
