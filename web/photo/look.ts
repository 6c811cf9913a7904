// A frame in, what can be seen of it at once out: whether it is sharp, and the tag card in it.
import wasmUrl from "zxing-wasm/reader/zxing_reader.wasm?url";
import { cardsIn, focusOf, greyOfRgba, prepareCardReader, type Rgba, steepen } from "../../extractors/photo/browser.ts";
import type { Card } from "../../shared/photo/card.ts";

export interface Look {
  readonly focus: number;
  /** The card, where one was read or several say the same. */
  readonly card?: Card;
}

let ready: Promise<void> | undefined;

/** Fetches the card reader from the shop, once. */
export function prepareLook(): Promise<void> {
  ready ??= fetch(wasmUrl)
    .then((response) => response.arrayBuffer())
    .then(prepareCardReader);
  return ready;
}

/** Looks at a frame; without the reader (shop out of reach on the first visit) it says nothing of cards. */
export async function lookAt(wide: Rgba, measured: Rgba): Promise<Look> {
  const focus = focusOf(greyOfRgba(measured.data, measured.width, measured.height));
  try {
    await prepareLook();
    const quick = await cardsIn(wide);
    const seen = quick.length > 0 ? quick : await cardsIn(steepen(greyOfRgba(wide.data, wide.width, wide.height)));
    const [first] = seen;
    const agreed = first !== undefined && new Set(seen.map(({ card }) => JSON.stringify(card))).size === 1;
    return agreed ? { focus, card: first.card } : { focus };
  } catch {
    ready = undefined;
    return { focus };
  }
}
