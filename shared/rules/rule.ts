// What a rule is: which subjects a touched key concerns, and the finding about one subject. One file a rule.
import type { Place } from "../places/places.ts";
import type { RuleContext } from "./context.ts";
import type { Finding } from "./finding.ts";
import type { TouchedKey } from "./key.ts";

/** One thing that a rule says one finding about. */
export interface Subject {
  readonly place: Place;
  /** Tells subjects at one place apart: a limit's id, a proof's id. Empty when the place says it all. */
  readonly tag: string;
}

export interface Rule {
  readonly id: string;
  readonly title: string;
  /** Subjects whose finding may change with this key; its cost is bound by the engine, never by the length of the log. */
  subjects(key: TouchedKey, context: RuleContext): Iterable<Subject>;
  /** The finding as things stand; undefined when there is nothing to say. */
  check(subject: Subject, context: RuleContext): Finding | undefined;
}
