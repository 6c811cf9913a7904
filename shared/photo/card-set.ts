// An engine's spec sheet in, the tag cards its job needs out: one for each place a proof is wanted of, one for each part.

import { placeLabel } from "../places/places.ts";
import { proofPlaces } from "../rules/missing-photos.ts";
import type { Spec } from "../spec/spec.ts";
import { planOf } from "../steps/plan.ts";
import type { Card } from "./card.ts";

export interface PrintedCard extends Card {
  /** Large words under the code: the place. */
  readonly title: string;
  /** Small words under it: what the picture shows. */
  readonly subtitle: string;
}

export interface CardGroup {
  readonly title: string;
  readonly cards: readonly PrintedCard[];
}

const upTo = (count: number) => Array.from({ length: count }, (_, index) => index + 1);

function printed(card: Card, subtitle: string): PrintedCard {
  return { ...card, title: placeLabel(card.place) || "engine", subtitle };
}

/** Cards in the order of the job, after the plain ones for every cylinder, main and rod. */
export function cardsOf(spec: Spec): CardGroup[] {
  const { cylinders, mains } = spec.engine;
  const parts = [
    ...upTo(cylinders).map((cylinder) => ({ cylinder })),
    ...upTo(mains).map((main) => ({ main })),
    ...upTo(cylinders).map((rod) => ({ rod })),
  ];
  const groups: CardGroup[] = [{ title: "Parts", cards: parts.map((place) => printed({ place }, "for any step")) }];
  for (const step of planOf(spec)) {
    const proofs = spec.proofs.filter((proof) => proof.step === step.id);
    const cards = proofs.flatMap((proof) =>
      proofPlaces(proof, spec).map((place) => printed({ place, step: step.id, subject: proof.id }, proof.title)),
    );
    if (cards.length > 0) groups.push({ title: step.title, cards });
  }
  return groups;
}
