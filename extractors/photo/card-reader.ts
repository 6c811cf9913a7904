// RGBA pixels in, the tag cards in the frame out. Runs in browser and Node; the caller brings the reader's wasm bytes.
import { prepareZXingModule, type ReaderOptions, readBarcodes } from "zxing-wasm/reader";
import { type Card, readCard } from "../../shared/photo/card.ts";

export interface Rgba {
  readonly data: Uint8ClampedArray;
  readonly width: number;
  readonly height: number;
}

export interface CardSeen {
  readonly card: Card;
  /** Corners of the code in the picture, in its pixels. */
  readonly corners: readonly { readonly x: number; readonly y: number }[];
}

const QUICK: ReaderOptions = { formats: ["QRCode"], tryHarder: true, tryInvert: false, maxNumberOfSymbols: 4 };

/** Gives the reader its wasm bytes, from the package: it would otherwise fetch them from a network. */
export function prepareCardReader(wasmBinary: ArrayBuffer): void {
  prepareZXingModule({ overrides: { wasmBinary } });
}

/** Every readable card of ours in the picture; other codes and damaged cards are passed over. */
export async function cardsIn(picture: Rgba): Promise<CardSeen[]> {
  const image = { ...picture, colorSpace: "srgb" } as unknown as ImageData;
  const codes = await readBarcodes(image, QUICK).catch(noneWhereItGaveUp);
  const seen: CardSeen[] = [];
  for (const code of codes) {
    const read = code.isValid ? readCard(code.text) : undefined;
    if (!read?.ok) continue;
    const { topLeft, topRight, bottomRight, bottomLeft } = code.position;
    seen.push({ card: read.card, corners: [topLeft, topRight, bottomRight, bottomLeft] });
  }
  return seen;
}

/** The reader gives up on a picture by throwing the bare address of its own exception: then it has read no code in it. */
function noneWhereItGaveUp(thrown: unknown): [] {
  if (typeof thrown === "number") return [];
  throw thrown;
}
