// What is doubtful about the newest photo of each proof at each place: used twice, too old, card disagrees, blurred.
import type { LoggedPhoto } from "../build/build.ts";
import { photoDoubts } from "../photo/doubts.ts";
import { type Place, placeKey } from "../places/places.ts";
import type { RuleContext } from "./context.ts";
import { groupOf } from "./photo-index.ts";
import type { Rule, Subject } from "./rule.ts";
import { at } from "./text.ts";

const REMEDY = "Look at the picture and take it again, or write down why it stands.";

const subject = (photo: LoggedPhoto): Subject => ({ place: photo.place, tag: groupOf(photo) });

/** Groups at the place that was touched, and those of photos that look like the one just taken or filed. */
function* subjectsAt(place: Place, { photoIndex }: RuleContext): Iterable<Subject> {
  for (const tag of photoIndex.groupsAt(placeKey(place))) yield { place, tag };
  if (photoIndex.last === undefined) return;
  yield subject(photoIndex.last);
  for (const other of photoIndex.alike(photoIndex.last)) yield subject(other);
}

function* subjectsOf(step: string, { photoIndex }: RuleContext): Iterable<Subject> {
  for (const group of photoIndex.groups()) {
    for (const photo of photoIndex.newest(group)) if (photo.step === step) yield subject(photo);
  }
}

export const PHOTO_DOUBTS: Rule = {
  id: "photo_doubt",
  title: "Photos are sharp, of their own place and of their own time",
  subjects: (key, context) => {
    if (key.kind === "photo") return subjectsAt(key.place, context);
    return key.kind === "step" ? subjectsOf(key.name, context) : [];
  },
  check: ({ place, tag }, { build, photoIndex }) => {
    const photo = photoIndex.newestAt(tag, placeKey(place));
    if (photo === undefined) return undefined;
    const earlier = photoIndex.alike(photo).filter((other) => other.order < photo.order);
    const opened = photo.step === undefined ? undefined : build.steps.get(photo.step)?.opened;
    const step = photo.step === undefined || opened === undefined ? undefined : { id: photo.step, openedAt: opened };
    const doubts = photoDoubts(photo, earlier, step);
    if (doubts.length === 0) return undefined;
    return {
      rule: "photo_doubt",
      verdict: "warn",
      place,
      value: null,
      limit: null,
      unit: null,
      why: `Photo${at(place)}: ${doubts.map(({ why }) => why).join(" ")}`,
      source: "shop rule; fingerprint and focus limits are start values of ours",
      remedy: REMEDY,
      ...(photo.step === undefined ? {} : { step: photo.step }),
      evidence: [photo.id, ...doubts.flatMap((doubt) => (doubt.with === undefined ? [] : [doubt.with]))],
    };
  },
};
