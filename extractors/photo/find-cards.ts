// Upright pixels in, the tag cards in the frame out: a quick look first, a careful one only where that found none.
import { type CardSeen, cardsIn } from "./card-reader.ts";
import type { Grey } from "./measures.ts";
import { CARD_SIZE, type Pixels, rgbaOf } from "./pixels.ts";
import { steepen } from "./steepen.ts";
import { prepareNodeCardReader } from "./zxing-node.ts";

/** Green carries most of what a sensor sees and of what the eye calls bright; a black and white card needs no more. */
function greenOf({ data, width, height }: Pixels): Grey {
  const grey = new Uint8Array(width * height);
  for (let at = 0, from = 1; at < grey.length; at += 1, from += 3) grey[at] = data[from] as number;
  return { data: grey, width, height };
}

/** Every readable card of ours in the picture. */
export async function findCards(pixels: Pixels): Promise<CardSeen[]> {
  prepareNodeCardReader();
  const quick = await cardsIn(await rgbaOf(pixels, CARD_SIZE));
  // The careful look takes all the pixels there are, with their edges steepened.
  return quick.length > 0 ? quick : cardsIn(steepen(greenOf(pixels)));
}
