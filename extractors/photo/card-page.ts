// Laid-out tag cards in, one self-contained HTML page of SVG sheets out, to be printed from any browser.
import type { CardGroup } from "../../shared/photo/card-set.ts";
import { CARD, layOut, PAPERS, type Paper, type PlacedCard, qrPath, twoLines } from "./card-sheet.ts";

const ESCAPES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
const escapeXml = (text: string) => text.replace(/[&<>"]/g, (char) => ESCAPES[char] ?? char);

function cardSvg({ card, group, x, y }: PlacedCard): string {
  const { path, side } = qrPath(card);
  const middle = CARD.width / 2;
  const lines = twoLines(card.subtitle, 32)
    .map((line, index) => `<text x="${middle}" y="${68.5 + index * 3.4}" font-size="3">${escapeXml(line)}</text>`)
    .join("");
  return `<g transform="translate(${x.toFixed(2)} ${y.toFixed(2)})" role="img" aria-label="${escapeXml(`${card.title}: ${card.subtitle}`)}">
<rect width="${CARD.width}" height="${CARD.height}" rx="2" fill="#fff" stroke="#999" stroke-width=".2" stroke-dasharray="1 1"/>
<g transform="translate(${(CARD.width - CARD.code) / 2} 2) scale(${CARD.code / side})"><path d="${path}" fill="#000" shape-rendering="crispEdges"/></g>
<g font-family="Helvetica, Arial, sans-serif" text-anchor="middle" fill="#000"><text x="${middle}" y="60" font-size="8" font-weight="bold">${escapeXml(card.title)}</text><text x="${middle}" y="64.6" font-size="2.6" fill="#333">${escapeXml(group)}</text>${lines}</g></g>`;
}

/** The page: one SVG a sheet, in the paper's size. */
export function cardPage(groups: readonly CardGroup[], engine: string, paper: Paper): string {
  const { width, height } = PAPERS[paper];
  const sheets = layOut(groups, paper).map(
    (cards) =>
      `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">${cards.map(cardSvg).join("\n")}</svg>`,
  );
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Tag cards, ${escapeXml(engine)}</title>
<style>@page{size:${width}mm ${height}mm;margin:0}body{margin:0;background:#fff}svg{display:block;break-after:page}</style></head>
<body>
${sheets.join("\n")}
</body></html>
`;
}
