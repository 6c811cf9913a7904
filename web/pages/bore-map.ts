// A bore as a section through its two axes, drawn from its readings: data in, SVG text out. Deviations are drawn larger than life.
import { AXES, DEPTHS } from "../../shared/places/places.ts";

type Axis = (typeof AXES)[number];
type Depth = (typeof DEPTHS)[number];

export interface BorePoint {
  readonly depth: Depth;
  readonly axis: Axis;
  /** Inches, and the digits as they were spoken. */
  readonly value: number;
  readonly digits: string;
}

export interface BoreDrawing {
  readonly title: string;
  /** The size that deviations are drawn from, inches. */
  readonly nominal: number;
  /** The same as the sheet has it, where that is not inches. */
  readonly from?: string;
  readonly points: readonly BorePoint[];
  /** Pixels of wall shift for a thousandth of an inch. */
  readonly perThou?: number;
}

const WIDTH = 300;
const HEIGHT = 250;
const TOP = 34;
const BOTTOM = 214;
const HALF = 34;
const CENTRES: Readonly<Record<Axis, number>> = { thrust: 80, axial: 220 };
const ROWS: Readonly<Record<Depth, number>> = { top: TOP + 18, middle: (TOP + BOTTOM) / 2, bottom: BOTTOM - 18 };

const escaped = (text: string) => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
const at = (x: number) => x.toFixed(1);

/** The wall's shift from its nominal line, pixels: half the diameter's deviation to each side. */
export function wallShift(value: number, nominal: number, perThou: number): number {
  return ((value - nominal) * 1000 * perThou) / 2;
}

function wall(points: readonly BorePoint[], centre: number, side: -1 | 1, nominal: number, perThou: number): string {
  const line = points.map(
    ({ depth, value }) => [centre + side * (HALF + wallShift(value, nominal, perThou)), ROWS[depth]] as const,
  );
  const first = line[0];
  const last = line.at(-1);
  if (first === undefined || last === undefined) return "";
  const path = [[first[0], TOP] as const, ...line, [last[0], BOTTOM] as const];
  const outer = centre + side * 62;
  const inner = path.map(([x, y]) => `${at(x)},${at(y)}`).join(" L");
  return `<path class="metal" d="M${at(outer)},${TOP} L${inner} L${at(outer)},${BOTTOM} Z"/>`;
}

function section(drawing: BoreDrawing, axis: Axis): string {
  const perThou = drawing.perThou ?? 2;
  const centre = CENTRES[axis];
  const points = DEPTHS.flatMap((depth) => drawing.points.filter((point) => point.axis === axis && point.depth === depth));
  const sides = [-1, 1] as const;
  const walls = sides.map((side) => wall(points, centre, side, drawing.nominal, perThou)).join("");
  const lines = sides.map((side) => `<path class="nominal" d="M${centre + side * HALF},${TOP} V${BOTTOM}"/>`).join("");
  const figures = DEPTHS.map((depth) => {
    const point = points.find((one) => one.depth === depth);
    const text = point === undefined ? "none" : escaped(point.digits);
    return `<text class="${point === undefined ? "none" : "figure"}" x="${centre}" y="${at(ROWS[depth] + 5)}">${text}</text>`;
  }).join("");
  return `<g>${walls}${lines}${figures}<text class="axis" x="${centre}" y="${BOTTOM + 22}">${axis}</text></g>`;
}

/** The drawing as SVG text with a title and a description that says every figure. */
export function boreMap(drawing: BoreDrawing): string {
  const said = drawing.points.map(({ depth, axis, digits }) => `${depth} ${axis} ${digits}`).join(", ");
  const scale = `walls drawn ${drawing.perThou ?? 2} dots a thou from ${drawing.from ?? drawing.nominal.toFixed(4)}`;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" class="bore-map">` +
    `<title>${escaped(drawing.title)}</title><desc>${escaped(said === "" ? "no readings" : said)}; ${scale}</desc>` +
    `${AXES.map((axis) => section(drawing, axis)).join("")}` +
    `<text class="head" x="${WIDTH / 2}" y="20">${escaped(drawing.title)}</text></svg>`
  );
}
