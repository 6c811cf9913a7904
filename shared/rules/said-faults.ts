// Faults in words: an inspection that failed, a crack, a part the wrong way round, until a later word or photo clears it.
import type { LoggedNote, LoggedPhoto } from "../build/build.ts";
import { type Place, placeKey, placeMatches } from "../places/places.ts";
import type { RuleContext } from "./context.ts";
import type { Rule } from "./rule.ts";
import { at, sentence } from "./text.ts";

const KINDS: readonly string[] = ["inspection", "crack", "statement"];
/** States and words that say a fault. What says neither fault nor health is no fault. */
const FAULT =
  /\b(fail(s|ed)?|bad|reject(ed)?|cracked|crack|trailing|backwards?|reversed|wrong way|upside down|swapped|not seated)\b/i;
const HEALTH = /\b(pass(es|ed)?|good|ok|okay|clean|no cracks?|leading|seated|right way)\b/i;

/** States that the words were read as already; they come before the words. */
const STATES: Readonly<Record<string, "fault" | "health">> = { fail: "fault", found: "fault", pass: "health", none: "health" };

interface Said {
  readonly text: string;
  readonly state: string | undefined;
  readonly order: number;
  readonly id: string;
  readonly place: Place;
}

const ofNote = ({ note, order, id }: LoggedNote): Said => ({
  text: note.text,
  state: note.state,
  order,
  id,
  place: note.place ?? {},
});

const ofPhoto = ({ statement, order, id, place }: LoggedPhoto): Said[] =>
  statement === undefined ? [] : [{ text: statement, state: undefined, order, id, place }];

/** Words turned round: "no good" is a fault and "not cracked" is none. */
const TURNED_FAULT = /\b(no good|not (good|ok|okay|seated|right))\b/i;
const TURNED_HEALTH = /\bnot (cracked|trailing|reversed|bad)\b/i;

function tells({ text, state }: Said): "fault" | "health" | undefined {
  const known = state === undefined ? undefined : STATES[state];
  if (known !== undefined) return known;
  if (TURNED_FAULT.test(text)) return "fault";
  if (TURNED_HEALTH.test(text) || HEALTH.test(text)) return "health";
  return FAULT.test(text) ? "fault" : undefined;
}

const SEPARATOR = "~";

function newest(tag: string, place: Place, context: RuleContext): Said | undefined {
  const [kind = "", proof = ""] = tag.split(SEPARATOR);
  const said =
    kind === "photo"
      ? context
          .photos(proof)
          .filter((photo) => placeKey(photo.place) === placeKey(place))
          .flatMap(ofPhoto)
      : context
          .notes(kind)
          .filter(({ note }) => placeMatches(note.place ?? {}, place) && placeKey(note.place ?? {}) === placeKey(place))
          .map(ofNote);
  return said.sort((a, b) => b.order - a.order)[0];
}

export const SAID_FAULT: Rule = {
  id: "said_fault",
  title: "No fault said is left standing",
  subjects: (key) => {
    if (key.kind === "note" && KINDS.includes(key.name)) return [{ place: key.place, tag: key.name }];
    return key.kind === "photo" && key.name !== "" ? [{ place: key.place, tag: `photo${SEPARATOR}${key.name}` }] : [];
  },
  check: ({ place, tag }, context) => {
    const said = newest(tag, place, context);
    const verdict = said === undefined ? undefined : tells(said);
    if (said === undefined || verdict === undefined) return undefined;
    const fault = verdict === "fault";
    return {
      rule: "said_fault",
      verdict: fault ? "fail" : "pass",
      place,
      value: null,
      limit: null,
      unit: null,
      why: `${sentence(`said${at(place)}`)}: "${said.text}".`,
      ...(fault ? { remedy: "Put it right, then say so or take the picture again." } : {}),
      evidence: [said.id],
    };
  },
};
