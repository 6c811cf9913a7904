// A grey picture in, the tag cards in the frame out: a quick look first, a careful one only where that found none.
import { type CardSeen, cardsIn, type Rgba } from "./card-reader.ts";
import type { Grey } from "./measures.ts";
import { steepen } from "./steepen.ts";
import { prepareNodeCardReader } from "./zxing-node.ts";

function rgbaOf({ data, width, height }: Grey): Rgba {
  const out = new Uint8ClampedArray(width * height * 4);
  const pixels = new Uint32Array(out.buffer);
  for (let at = 0; at < pixels.length; at += 1) pixels[at] = 0xff000000 | ((data[at] as number) * 0x010101);
  return { data: out, width, height };
}

/** Every readable card of ours in a picture of about a thousand pixels: a code that takes a fifteenth of its width is read. */
export async function findCards(grey: Grey): Promise<CardSeen[]> {
  prepareNodeCardReader();
  const quick = await cardsIn(rgbaOf(grey));
  return quick.length > 0 ? quick : cardsIn(steepen(grey));
}
