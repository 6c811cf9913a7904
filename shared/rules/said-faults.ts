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

interface Said {
  readonly text: string;
  readonly order: number;
  readonly id: string;
  readonly place: Place;
}

const ofNote = ({ note, order, id }: LoggedNote): Said => ({
  text: `${note.state ?? ""} ${note.text}`.trim(),
  order,
  id,
  place: note.place ?? {},
});

const ofPhoto = ({ statement, order, id, place }: LoggedPhoto): Said[] =>
  statement === undefined ? [] : [{ text: statement, order, id, place }];

/** Health is looked for first: "no crack" and "not cracked" speak of cracks too. */
function tells(text: string): "fault" | "health" | undefined {
  if (/\bnot (cracked|trailing|reversed)\b/i.test(text) || (HEALTH.test(text) && !/\bnot (good|ok|okay|seated)\b/i.test(text)))
    return "health";
  return FAULT.test(text) || /\bnot (good|ok|okay)\b/i.test(text) ? "fault" : undefined;
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
    const verdict = said === undefined ? undefined : tells(said.text);
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
