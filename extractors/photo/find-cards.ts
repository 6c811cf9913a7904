// Upright pixels in, the tag cards in the frame out: a quick look first, a careful one only where that found none.
import sharp from "sharp";
import { type CardSeen, cardsIn, type Rgba } from "./card-reader.ts";
import { CARD_SIZE, type Pixels, rgbaOf } from "./pixels.ts";
import { prepareNodeCardReader } from "./zxing-node.ts";

/** The careful look: all the pixels there are, edges steepened so that blurred and greasy squares part again. */
async function steepened({ data, width, height }: Pixels): Promise<Rgba> {
  const raw = sharp(data, { raw: { width, height, channels: 3 } })
    .greyscale()
    .sharpen({ sigma: 2 });
  const out = await raw.toColourspace("srgb").ensureAlpha().raw({ depth: "uchar" }).toBuffer();
  return { data: new Uint8ClampedArray(out.buffer, out.byteOffset, out.length), width, height };
}

/** Every readable card of ours in the picture. */
export async function findCards(pixels: Pixels): Promise<CardSeen[]> {
  prepareNodeCardReader();
  const quick = await cardsIn(await rgbaOf(pixels, CARD_SIZE));
  return quick.length > 0 ? quick : cardsIn(await steepened(pixels));
}
