// Laid-out tag cards in, a PDF of them out, to be printed and laminated.
import PDFDocument from "pdfkit";
import { CARD, layOut, PAPERS, type Paper, type PlacedCard, qrPath, twoLines } from "../../extractors/photo/card-sheet.ts";
import type { CardGroup } from "../../shared/photo/card-set.ts";

/** Points of PDF in a millimetre. */
const MM = 72 / 25.4;

type Document = InstanceType<typeof PDFDocument>;

function line(document: Document, text: string, y: number, size: number, font: string): void {
  document.font(font).fontSize(size * MM);
  // A long place is set smaller rather than broken: it must stay one line.
  const room = (CARD.width - 4) * MM;
  const wide = document.widthOfString(text);
  if (wide > room) document.fontSize((size * MM * room) / wide);
  document.text(text, 2 * MM, y * MM, { width: room, align: "center", lineBreak: false });
}

function drawCard(document: Document, { card, group, x, y }: PlacedCard): void {
  const { path, side } = qrPath(card);
  document.save().translate(x * MM, y * MM);
  document
    .lineWidth(0.5)
    .dash(3, { space: 3 })
    .strokeColor("#999999")
    .roundedRect(0, 0, CARD.width * MM, CARD.height * MM, 2 * MM)
    .stroke();
  document.undash();
  const scale = (CARD.code / side) * MM;
  document
    .save()
    .translate(((CARD.width - CARD.code) / 2) * MM, 2 * MM)
    .scale(scale)
    .path(path)
    .fill("#000000")
    .restore();
  document.fillColor("#000000");
  line(document, card.title, 53.5, 8, "Helvetica-Bold");
  line(document, group, 62.6, 2.6, "Helvetica");
  for (const [index, text] of twoLines(card.subtitle, 32).entries())
    line(document, text.replace("…", "..."), 66.2 + index * 3.6, 3, "Helvetica");
  document.restore();
}

/** The PDF's bytes. The QR codes are drawn as paths, so they stay sharp at any size. */
export async function cardPdf(groups: readonly CardGroup[], engine: string, paper: Paper): Promise<Buffer> {
  const { width, height } = PAPERS[paper];
  const size: [number, number] = [width * MM, height * MM];
  const document = new PDFDocument({ size, margin: 0, autoFirstPage: false, info: { Title: `Tag cards, ${engine}` } });
  const chunks: Buffer[] = [];
  document.on("data", (chunk: Buffer) => chunks.push(chunk));
  const ended = new Promise<void>((resolve, reject) => {
    document.on("end", resolve);
    document.on("error", reject);
  });
  for (const cards of layOut(groups, paper)) {
    document.addPage({ size, margin: 0 });
    for (const card of cards) drawCard(document, card);
  }
  document.end();
  await ended;
  return Buffer.concat(chunks);
}
