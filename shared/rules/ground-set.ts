// Which journals of the crank an undersize was said of.
import type { LoggedReading } from "../build/build.ts";
import type { RuleContext } from "./context.ts";

/** Which journals an undersize was said of, where it names no single one: by its part, else by the words it was said in. */
export function groundSet(logged: LoggedReading, { build }: RuleContext): "mains" | "crankpins" | undefined {
  const { main, rod, part } = logged.reading.place;
  if (main !== undefined) return "mains";
  if (rod !== undefined) return "crankpins";
  const words = part ?? (logged.utterance === undefined ? "" : (build.utterances.get(logged.utterance)?.text ?? ""));
  if (/\bmains?\b/i.test(words)) return "mains";
  return /pins?\b|\bthrows?\b|\brod journals?\b/i.test(words) ? "crankpins" : undefined;
}
