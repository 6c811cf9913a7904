// Groups of tag cards in, where each goes on which sheet out, with its QR code as a path: one layout for page and PDF.
import QRCode from "qrcode";
import { cardText } from "../../shared/photo/card.ts";
import type { CardGroup, PrintedCard } from "../../shared/photo/card-set.ts";

/** Paper sizes in mm: ISO 216 A4 and US Letter. */
export const PAPERS = { a4: { width: 210, height: 297 }, letter: { width: 215.9, height: 279.4 } } as const;
export type Paper = keyof typeof PAPERS;

/** Card size in mm: large enough to be read from half a metre, small enough for twelve on a sheet. */
export const CARD = { width: 58, height: 78, code: 50, gap: 4 } as const;
/** Empty modules round the code (ISO/IEC 18004, 5.3.8). */
const QUIET_ZONE = 4;

export interface PlacedCard {
  readonly card: PrintedCard;
  readonly group: string;
  /** Upper left corner on its sheet, mm. */
  readonly x: number;
  readonly y: number;
}

/** QR code of a card as a path of unit squares, with its side in units, quiet zone included. Level H mends nearly a third. */
export function qrPath(card: PrintedCard): { path: string; side: number } {
  const { modules } = QRCode.create(cardText(card), { errorCorrectionLevel: "H" });
  let path = "";
  for (let row = 0; row < modules.size; row += 1) {
    for (let column = 0; column < modules.size; column += 1) {
      if (!modules.get(row, column)) continue;
      let run = 1;
      while (column + run < modules.size && modules.get(row, column + run)) run += 1;
      path += `M${column + QUIET_ZONE} ${row + QUIET_ZONE}h${run}v1h-${run}z`;
      column += run - 1;
    }
  }
  return { path, side: modules.size + 2 * QUIET_ZONE };
}

/** Cards laid out row by row; a sheet is one list. */
export function layOut(groups: readonly CardGroup[], paper: Paper): PlacedCard[][] {
  const { width, height } = PAPERS[paper];
  const columns = Math.floor((width - CARD.gap) / (CARD.width + CARD.gap));
  const rows = Math.floor((height - CARD.gap) / (CARD.height + CARD.gap));
  const left = (width - columns * (CARD.width + CARD.gap) + CARD.gap) / 2;
  const top = (height - rows * (CARD.height + CARD.gap) + CARD.gap) / 2;
  const sheets: PlacedCard[][] = [];
  const all = groups.flatMap(({ title, cards }) => cards.map((card) => ({ card, group: title })));
  all.forEach((entry, index) => {
    const onSheet = index % (columns * rows);
    if (onSheet === 0) sheets.push([]);
    const x = left + (onSheet % columns) * (CARD.width + CARD.gap);
    const y = top + Math.floor(onSheet / columns) * (CARD.height + CARD.gap);
    sheets.at(-1)?.push({ ...entry, x, y });
  });
  return sheets;
}

/** Words broken into at most two lines of about `width` characters. */
export function twoLines(text: string, width: number): string[] {
  const lines = [""];
  for (const word of text.split(" ")) {
    const last = lines.at(-1) ?? "";
    if (last !== "" && last.length + word.length + 1 > width) lines.push(word);
    else lines[lines.length - 1] = last === "" ? word : `${last} ${word}`;
  }
  return lines.length <= 2
    ? lines
    : [
        lines[0] ?? "",
        `${lines
          .slice(1)
          .join(" ")
          .slice(0, width - 1)}…`,
      ];
}
