// A photo whose card says another place than it is filed under: the question, and a button that files it by the card.
import { stampEvent } from "../../extractors/bench/index.ts";
import type { LoggedPhoto } from "../../shared/build/index.ts";
import { differentPlaces } from "../../shared/photo/doubts.ts";
import { placeLabel } from "../../shared/places/places.ts";
import { Writers } from "../parts/writers.tsx";
import { openBook } from "../store/bench.ts";
import { stampFor } from "../store/words.ts";

/** Filing is an event of its own: where the photo was first filed stays in the log. */
function fileByCard({ id, photo: { card } }: LoggedPhoto): void {
  const book = openBook.value;
  if (book === undefined || card === undefined) return;
  const proof = book.build?.spec.proofs.find((wanted) => wanted.id === card.subject)?.id;
  const data = {
    target: id,
    place: card.place,
    ...(card.step === undefined ? {} : { step: card.step }),
    ...(proof === undefined ? {} : { proof }),
  };
  void book.log([stampEvent(stampFor(book), "photo.filed", data)]);
}

export function CardDoubt({ photo }: { photo: LoggedPhoto }) {
  const { card } = photo.photo;
  if (card === undefined || !differentPlaces(card.place, photo.place)) return null;
  const says = placeLabel(card.place);
  return (
    <p class="warning">
      The card in the frame says {says}, the picture is filed under {placeLabel(photo.place) || "no place"}. Which is right?{" "}
      <Writers>
        <button type="button" class="small-button" onClick={() => fileByCard(photo)}>
          File it under {says}
        </button>
      </Writers>
    </p>
  );
}
