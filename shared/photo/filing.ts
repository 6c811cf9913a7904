// Where a photo belongs: as the sender says, else as its tag card says, else where the device stands in the job.
import type { PhotoFacts } from "../events/events.ts";
import type { Question } from "../events/reading.ts";
import { type Place, placeLabel } from "../places/places.ts";
import type { Spec } from "../spec/spec.ts";
import type { StepId } from "../steps/steps.ts";
import { differentPlaces } from "./doubts.ts";

export interface Filing {
  readonly place: Place;
  readonly step?: StepId;
  /** Id of the spec sheet's proof it is for. */
  readonly proof?: string;
}

export interface FilingInput {
  readonly photo: PhotoFacts;
  /** What the sender said of it. */
  readonly said: { readonly place?: Place | undefined; readonly step?: StepId | undefined; readonly proof?: string | undefined };
  /** Where the device stands in the job. */
  readonly focus: { readonly place: Place; readonly step?: StepId | undefined };
  readonly spec: Spec;
}

/** "Rod two" heard as a fastening is the rod itself while no nut is named: one rod has one place. */
function tidy(place: Place): Place {
  const { fastener, ...rest } = place;
  const same = (fastener === "rod" || fastener === "main") && place[fastener] !== undefined && place.nut === undefined;
  return same ? rest : place;
}

/** Files a photo. A card's subject counts as a proof only where the spec sheet has that proof. */
export function filePhoto({ photo, said, focus, spec }: FilingInput): Filing {
  const card = photo.card;
  const subject = spec.proofs.find(({ id }) => id === card?.subject);
  const proof = said.proof ?? subject?.id;
  const step = said.step ?? card?.step ?? spec.proofs.find(({ id }) => id === proof)?.step ?? focus.step;
  return {
    place: tidy(said.place ?? card?.place ?? focus.place),
    ...(step === undefined ? {} : { step }),
    ...(proof === undefined ? {} : { proof }),
  };
}

/** The question to ask where the card in the frame and the place it was filed for contradict each other. */
export function cardQuestion(photo: PhotoFacts, filed: Filing, event: string): Question | undefined {
  if (!photo.card || !differentPlaces(photo.card.place, filed.place)) return undefined;
  const options = [placeLabel(photo.card.place), placeLabel(filed.place)];
  return {
    code: "card_disagrees",
    say: `Card says ${options[0]}. Which is right?`,
    options,
    about: { photo: event, card: photo.card.place, filed: filed.place },
  };
}
