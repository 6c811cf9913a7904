// A tag card lying in the scene: white card, QR code of our own payload, the same in words.
import QRCode from "qrcode";
import { type Card, cardText } from "../../shared/photo/card.ts";
import { placeLabel } from "../../shared/places/places.ts";

/** Where the card lies: centre, width in px, turn in degrees, skew as a tilted card shows it. */
export interface Lying {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly turn: number;
  readonly skew?: number;
}

export function tagCard(card: Card, { x, y, width, turn, skew = 0 }: Lying): string {
  const code = QRCode.create(cardText(card), { errorCorrectionLevel: "Q" });
  const { size, data } = code.modules;
  // Quiet zone of four modules all round (ISO/IEC 18004).
  const module = 100 / (size + 8);
  let squares = "";
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; column += 1) {
      if (data[row * size + column])
        squares += `M${((column + 4) * module).toFixed(3)} ${((row + 4) * module).toFixed(3)}h${module.toFixed(3)}v${module.toFixed(3)}h-${module.toFixed(3)}z`;
    }
  }
  const scale = width / 100;
  return `<g transform="translate(${x} ${y}) rotate(${turn}) skewX(${skew}) scale(${scale}) translate(-50 -62)" filter="url(#near)">
<rect width="100" height="124" rx="3" fill="#f4f2ea"/><path d="${squares}" fill="#15171a"/>
<text x="50" y="108" font-family="DejaVu Sans" font-weight="bold" font-size="12.5" text-anchor="middle" fill="#15171a">${placeLabel(card.place)}</text>
<text x="50" y="119.5" font-family="DejaVu Sans" font-size="7.5" text-anchor="middle" fill="#3b4046">${(card.subject ?? "").replaceAll("_", " ")}</text></g>`;
}
