// What is doubtful about the newest photo of each proof at each place: used twice, too old, card disagrees, blurred.
import type { Build, LoggedPhoto } from "../build/build.ts";
import { fingerprintDistance, PHOTO_FLOORS, photoDoubts } from "../photo/doubts.ts";
import { type Place, placeKey } from "../places/places.ts";
import type { Rule, Subject } from "./rule.ts";
import { at } from "./text.ts";

const REMEDY = "Look at the picture and take it again, or write down why it stands.";

/** Photos whose doubts may hang on a photo at this place: its own place's, and the twins of those. */
function* subjectsAt(place: Place, build: Build): Iterable<Subject> {
  const key = placeKey(place);
  const here: LoggedPhoto[] = [];
  for (const photo of build.photos.values()) {
    // A photo that has been filed elsewhere is asked for here too, so that its old finding goes.
    yield { place, tag: photo.id };
    if (placeKey(photo.place) === key) here.push(photo);
  }
  for (const other of build.photos.values()) {
    const near = here.some(
      (photo) => fingerprintDistance(photo.photo.fingerprint, other.photo.fingerprint) <= PHOTO_FLOORS.twinBits,
    );
    if (near) yield { place: other.place, tag: other.id };
  }
}

function* subjectsOf(step: string, build: Build): Iterable<Subject> {
  for (const photo of build.photos.values()) if (photo.step === step) yield { place: photo.place, tag: photo.id };
}

/** The photos before this one; undefined where a later one of the same proof at the same place has taken its part. */
function before(photo: LoggedPhoto, build: Build): LoggedPhoto[] | undefined {
  const key = placeKey(photo.place);
  const earlier: LoggedPhoto[] = [];
  for (const other of build.photos.values()) {
    if (other.order < photo.order) earlier.push(other);
    else if (other.order > photo.order && other.proof === photo.proof && placeKey(other.place) === key) return undefined;
  }
  return earlier;
}

export const PHOTO_DOUBTS: Rule = {
  id: "photo_doubt",
  title: "Photos are sharp, of their own place and of their own time",
  subjects: (key, { build }) => {
    if (key.kind === "photo") return subjectsAt(key.place, build);
    return key.kind === "step" ? subjectsOf(key.name, build) : [];
  },
  check: ({ place, tag }, { build }) => {
    const photo = build.photos.get(tag);
    if (photo === undefined || placeKey(photo.place) !== placeKey(place)) return undefined;
    const earlier = before(photo, build);
    if (earlier === undefined) return undefined;
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
