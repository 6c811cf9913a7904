// The printed sheets: every card of the demo engine is on them once, inside the paper, and an independent decoder reads it.
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { inflateSync } from "node:zlib";
import jsQR from "jsqr";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { cardPage } from "../../../extractors/photo/card-page.ts";
import { CARD, layOut, PAPERS, twoLines } from "../../../extractors/photo/card-sheet.ts";
import { run } from "../../../server/cli/commands/cards.ts";
import { cardText, readCard } from "../../../shared/photo/card.ts";
import { cardsOf } from "../../../shared/photo/card-set.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";

const GROUPS = cardsOf(DEMO_SPEC);
const CARDS = GROUPS.flatMap(({ cards }) => cards);
/** Dots in a millimetre of the rendered sheet: about 150 dpi, a coarse printer. */
const DOTS = 6;

describe("the set of cards", () => {
  it("has one card for each part and each wanted photo", () => {
    const { cylinders, mains } = DEMO_SPEC.engine;
    const places = {
      engine: 1,
      cylinder: cylinders,
      rod: cylinders,
      main: mains,
      rod_nut: 0,
      crankpin: DEMO_SPEC.engine.cylinders,
      main_nut: 0,
    };
    const wanted = DEMO_SPEC.proofs.reduce((sum, { each }) => sum + places[each], 0);
    expect(CARDS.length).toBe(2 * cylinders + mains + wanted);
    expect(new Set(CARDS.map(cardText)).size).toBe(CARDS.length);
  });
});

describe("sheets", () => {
  it.each(["a4", "letter"] as const)("lie inside %s without overlap", (paper) => {
    const { width, height } = PAPERS[paper];
    for (const sheet of layOut(GROUPS, paper)) {
      for (const [index, { x, y }] of sheet.entries()) {
        expect(Math.min(x, y)).toBeGreaterThanOrEqual(CARD.gap);
        expect(x + CARD.width).toBeLessThanOrEqual(width - CARD.gap);
        expect(y + CARD.height).toBeLessThanOrEqual(height - CARD.gap);
        for (const other of sheet.slice(index + 1)) {
          const apart = Math.abs(other.x - x) >= CARD.width || Math.abs(other.y - y) >= CARD.height;
          expect(apart).toBe(true);
        }
      }
    }
  });

  it("carry codes that an independent ISO/IEC 18004 decoder reads, each with its own words", async () => {
    const svgs = cardPage(GROUPS, DEMO_SPEC.name, "a4").match(/<svg[\s\S]*?<\/svg>/g) ?? [];
    const sheets = layOut(GROUPS, "a4");
    expect(svgs.length).toBe(sheets.length);
    const texts: string[] = [];
    for (const [index, svg] of svgs.entries()) {
      const page = sharp(Buffer.from(svg))
        .resize(PAPERS.a4.width * DOTS)
        .flatten({ background: "#fff" })
        .ensureAlpha();
      const { data, info } = await page.raw().toBuffer({ resolveWithObject: true });
      for (const { x, y, card } of sheets[index] ?? []) {
        const [left, top, side] = [Math.round(x * DOTS), Math.round(y * DOTS), CARD.width * DOTS];
        const cut = new Uint8ClampedArray(side * side * 4);
        for (let row = 0; row < side; row += 1) {
          const from = ((top + row) * info.width + left) * 4;
          cut.set(data.subarray(from, from + side * 4), row * side * 4);
        }
        const text = jsQR(cut, side, side)?.data ?? "";
        expect(readCard(text)).toMatchObject({ ok: true, card: { place: card.place } });
        texts.push(text);
      }
    }
    expect(texts.sort()).toEqual(CARDS.map(cardText).sort());
  });

  it("break long words into at most two lines", () => {
    expect(twoLines("short", 32)).toEqual(["short"]);
    for (const lines of CARDS.map(({ subtitle }) => twoLines(subtitle, 32))) expect(lines.length).toBeLessThanOrEqual(2);
    expect(twoLines("one two three four five six seven eight nine ten", 12)[1]).toMatch(/…$/);
  });
});

/** Words of a PDF written with a standard font: hex strings of its inflated content streams, kerning left out. */
function pdfWords(bytes: Buffer): string {
  let words = "";
  for (let at = bytes.indexOf("stream\n"); at >= 0; at = bytes.indexOf("stream\n", at + 8)) {
    const end = bytes.indexOf("endstream", at);
    if (bytes.subarray(at - 3, at).toString() === "end" || end < 0) continue;
    try {
      const content = inflateSync(bytes.subarray(at + 7, end)).toString("latin1");
      for (const [, run] of content.matchAll(/\[(.*?)\] TJ/g)) {
        words += `${Buffer.from([...(run ?? "").matchAll(/<([0-9a-f]+)>/g)].map(([, hex]) => hex).join(""), "hex").toString("latin1")}\n`;
      }
    } catch {
      // Not every stream is deflated content.
    }
  }
  return words;
}

describe("thoubook cards", () => {
  it("writes a PDF with every card's words, and a page", async () => {
    const folder = await mkdtemp(join(tmpdir(), "cards-"));
    try {
      const [pdf, page] = [join(folder, "c.pdf"), join(folder, "c.html")];
      expect(await run([], { out: pdf })).toBe(0);
      expect(await run([], { out: page, paper: "letter" })).toBe(0);
      const bytes = await readFile(pdf);
      expect(bytes.subarray(0, 5).toString()).toBe("%PDF-");
      expect(bytes.toString("latin1").match(/\/Type \/Page\b/g)?.length).toBe(layOut(GROUPS, "a4").length);
      const words = pdfWords(bytes).split("\n");
      for (const { title } of CARDS) expect(words).toContain(title);
      expect(words.filter((word) => word === "rod 3").length).toBe(CARDS.filter(({ title }) => title === "rod 3").length);
      expect(await readFile(page, "utf8")).toContain("215.9mm");
    } finally {
      await rm(folder, { recursive: true });
    }
  });

  it("refuses bad arguments with exit 2 and an unreadable spec sheet with 1", async () => {
    expect(await run([], {})).toBe(2);
    expect(await run([], { out: "cards.docx" })).toBe(2);
    expect(await run([], { out: "c.pdf", paper: "a0" })).toBe(2);
    expect(await run([], { out: "c.pdf", spec: "/nowhere/spec.yaml" })).toBe(1);
    expect(await run([], { out: "/nowhere/c.pdf" })).toBe(1);
  });
});
