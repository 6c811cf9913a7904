// `thoubook cards`: an engine's spec sheet in, a printable sheet of tag cards out, as PDF or as a page.
import { writeFile } from "node:fs/promises";
import { cardPage } from "../../../extractors/photo/card-page.ts";
import { PAPERS, type Paper } from "../../../extractors/photo/card-sheet.ts";
import { cardsOf } from "../../../shared/photo/card-set.ts";
import { cardPdf } from "../../cards/card-pdf.ts";
import { loadSpec } from "../spec-option.ts";

/** Exit code: 0 written, 1 not writable or bad spec sheet, 2 bad arguments. */
export async function run(_: unknown[], options: Record<string, unknown>): Promise<number> {
  const out = options.out === undefined ? "" : String(options.out);
  const paper = String(options.paper ?? "a4");
  const kind = /\.(pdf|html)$/.exec(out)?.[1];
  if (kind === undefined) return refuse("bad_out", `Expected a name ending in .pdf or .html for --out, got ${out || "none"}`, 2);
  if (!(paper in PAPERS)) return refuse("bad_paper", `Expected ${Object.keys(PAPERS).join(" or ")} for --paper, got ${paper}`, 2);
  const read = await loadSpec(options.spec);
  if (!read.ok) return refuse("bad_spec", read.message, 1);
  const groups = cardsOf(read.spec);
  const sheet =
    kind === "pdf" ? await cardPdf(groups, read.spec.name, paper as Paper) : cardPage(groups, read.spec.name, paper as Paper);
  try {
    await writeFile(out, sheet);
  } catch (error) {
    return refuse("not_written", `Expected a writable file for --out, got ${out}: ${(error as Error).message}`, 1);
  }
  const cards = groups.reduce((sum, group) => sum + group.cards.length, 0);
  process.stderr.write(`${cards} cards written to ${out}. Print at full size, laminate matt.\n`);
  return 0;
}

function refuse(code: string, sentence: string, exit: number): number {
  process.stderr.write(`${code}: ${sentence}\n`);
  return exit;
}
