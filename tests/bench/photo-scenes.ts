// Tag cards as a bench camera sees them: drawn cards under perspective, turn, blur, glare, dirt and wear. Seeded.
import sharp from "sharp";
import { randomFrom } from "../../demo-data/drawing/random.ts";
import type { Rgba } from "../../extractors/photo/card-reader.ts";
import { CARD, qrPath } from "../../extractors/photo/card-sheet.ts";
import { type Card, cardText } from "../../shared/photo/card.ts";

export const FRAME = { width: 1280, height: 960 } as const;
/** Dots of the flat card picture that is warped into the scene. */
const FLAT = { width: CARD.width * 10, height: CARD.height * 10 } as const;

type Random = ReturnType<typeof randomFrom>;
type Point = readonly [number, number];

/** How much of each hindrance a scene has, 0 for none. */
export interface Hindrance {
  readonly name: string;
  /** Largest turn in degrees. */
  readonly turn: number;
  /** Largest shift of a corner, as a share of the card's width: foreshortening. */
  readonly tilt: number;
  /** Gaussian blur, px in the 1280 px frame. */
  readonly blur: number;
  /** Opacity of a white reflection across the card. */
  readonly glare: number;
  /** Oil spots on the card; each about a tenth of the code wide. */
  readonly spots: number;
  /** Sensor noise, grey levels. */
  readonly noise: number;
}

const hindrance = (name: string, changes: Partial<Hindrance>): Hindrance => ({
  name,
  turn: 8,
  tilt: 0,
  blur: 0.6,
  glare: 0,
  spots: 0,
  noise: 4,
  ...changes,
});

export const HINDRANCES: readonly Hindrance[] = [
  hindrance("flat and clean", {}),
  hindrance("any rotation", { turn: 180 }),
  hindrance("tilted", { turn: 30, tilt: 0.22 }),
  hindrance("steeply tilted", { turn: 30, tilt: 0.36 }),
  hindrance("slightly blurred", { turn: 30, blur: 2 }),
  hindrance("blurred", { turn: 30, blur: 3 }),
  hindrance("glare", { turn: 30, glare: 0.75 }),
  hindrance("a few oil spots", { turn: 30, spots: 4 }),
  hindrance("many oil spots", { turn: 30, spots: 9 }),
  hindrance("all at once", { turn: 180, tilt: 0.2, blur: 1.4, glare: 0.5, spots: 4, noise: 10 }),
];

async function flatCard(card: Card, spots: number, random: Random): Promise<Buffer> {
  const { path, side } = qrPath({ ...card, title: "", subtitle: "" });
  const code = CARD.code * 10;
  const left = (FLAT.width - code) / 2;
  const dirt = Array.from({ length: spots }, () => {
    const [x, y] = [left + random.between(0, code), 20 + random.between(0, code)];
    const [rx, ry] = [random.between(0.05, 0.11) * code * 0.6, random.between(0.03, 0.09) * code * 0.6];
    return `<ellipse cx="${x}" cy="${y}" rx="${rx}" ry="${ry}" transform="rotate(${random.between(0, 180)} ${x} ${y})" fill="#2a1a08" opacity="${random.between(0.55, 0.95)}"/>`;
  }).join("");
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${FLAT.width}" height="${FLAT.height}"><rect width="100%" height="100%" fill="#ece9df"/><g transform="translate(${left} 20) scale(${code / side})"><path d="${path}" fill="#1c1d20" shape-rendering="crispEdges"/></g>${dirt}</svg>`;
  return sharp(Buffer.from(svg)).flatten({ background: "#fff" }).greyscale().toColourspace("b-w").raw().toBuffer();
}

/** Eight numbers of the homography that takes the four `corners` in the frame to the flat card's corners. */
function homography(corners: readonly Point[]): Float64Array {
  const targets: Point[] = [
    [0, 0],
    [FLAT.width, 0],
    [FLAT.width, FLAT.height],
    [0, FLAT.height],
  ];
  const rows: number[][] = [];
  corners.forEach(([x, y], index) => {
    const [u, v] = targets[index] ?? [0, 0];
    rows.push([x, y, 1, 0, 0, 0, -u * x, -u * y, u], [0, 0, 0, x, y, 1, -v * x, -v * y, v]);
  });
  // Gauss elimination with partial pivoting on eight equations.
  for (let column = 0; column < 8; column += 1) {
    let pivot = column;
    for (let row = column; row < 8; row += 1)
      if (Math.abs(rows[row]?.[column] ?? 0) > Math.abs(rows[pivot]?.[column] ?? 0)) pivot = row;
    const [top, chosen] = [rows[column] ?? [], rows[pivot] ?? []];
    rows[column] = chosen;
    if (pivot !== column) rows[pivot] = top;
    const divisor = chosen[column] ?? 1;
    for (let at = column; at < 9; at += 1) chosen[at] = (chosen[at] ?? 0) / divisor;
    for (let row = 0; row < 8; row += 1) {
      const line = rows[row];
      if (row === column || !line) continue;
      const factor = line[column] ?? 0;
      for (let at = column; at < 9; at += 1) line[at] = (line[at] ?? 0) - factor * (chosen[at] ?? 0);
    }
  }
  return Float64Array.from(rows.map((row) => row[8] ?? 0));
}

function placeCorners({ turn, tilt }: Hindrance, random: Random): Point[] {
  const width = random.between(200, 380);
  const height = (width * FLAT.height) / FLAT.width;
  const angle = (random.between(-turn, turn) * Math.PI) / 180;
  const reach = Math.hypot(width, height) / 2 + 10;
  const [cx, cy] = [
    random.between(reach, FRAME.width - reach),
    random.between(Math.min(reach, 470), FRAME.height - Math.min(reach, 470)),
  ];
  const away = random.pick([
    [0, 1],
    [2, 3],
    [0, 3],
    [1, 2],
  ] as [number[], ...number[][]]);
  const pull = random.between(tilt * 0.5, tilt);
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([sx = 0, sy = 0], corner) => {
    // The far edge of a tilted card is shorter and nearer.
    const far = away.includes(corner);
    const across = Math.abs((away[0] ?? 0) - (away[1] ?? 0)) === 1 && away[0] !== 1;
    const [x, y] = [(sx * width) / 2, (sy * height) / 2];
    const [px, py] = far ? [x * (across ? 1 - pull : 1 - pull * 1.2), y * (across ? 1 - pull * 1.2 : 1 - pull)] : [x, y];
    return [cx + px * Math.cos(angle) - py * Math.sin(angle), cy + px * Math.sin(angle) + py * Math.cos(angle)] as const;
  });
}

function background(random: Random): Uint8Array {
  const [base, slope] = [random.between(70, 150), random.between(-60, 60)];
  const grey = new Uint8Array(FRAME.width * FRAME.height);
  const bars = Array.from(
    { length: 24 },
    () =>
      [
        random.between(0, FRAME.width),
        random.between(0, FRAME.height),
        random.between(20, 240),
        random.between(10, 160),
        random.between(30, 220),
      ] as const,
  );
  for (let y = 0; y < FRAME.height; y += 1)
    for (let x = 0; x < FRAME.width; x += 1) grey[y * FRAME.width + x] = base + (slope * x) / FRAME.width;
  for (const [left, top, width, height, level] of bars) {
    for (let y = Math.floor(top); y < Math.min(FRAME.height, top + height); y += 1)
      grey.fill(level, y * FRAME.width + Math.floor(left), y * FRAME.width + Math.min(FRAME.width, Math.floor(left + width)));
  }
  return grey;
}

function warp(grey: Uint8Array, flat: Buffer, corners: readonly Point[]): void {
  const h = homography(corners);
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  for (let y = Math.max(0, Math.floor(Math.min(...ys))); y < Math.min(FRAME.height, Math.max(...ys)); y += 1) {
    for (let x = Math.max(0, Math.floor(Math.min(...xs))); x < Math.min(FRAME.width, Math.max(...xs)); x += 1) {
      // Four samples a pixel, as a sensor's pixel has an area.
      let sum = 0;
      let inside = 0;
      for (const [dx, dy] of [
        [0.25, 0.25],
        [0.75, 0.25],
        [0.25, 0.75],
        [0.75, 0.75],
      ] as const) {
        const [px, py] = [x + dx, y + dy];
        const w = (h[6] ?? 0) * px + (h[7] ?? 0) * py + 1;
        const u = ((h[0] ?? 0) * px + (h[1] ?? 0) * py + (h[2] ?? 0)) / w;
        const v = ((h[3] ?? 0) * px + (h[4] ?? 0) * py + (h[5] ?? 0)) / w;
        if (u < 0 || v < 0 || u >= FLAT.width || v >= FLAT.height) continue;
        inside += 1;
        sum += flat[Math.floor(v) * FLAT.width + Math.floor(u)] ?? 0;
      }
      const at = y * FRAME.width + x;
      if (inside > 0) grey[at] = (sum + (4 - inside) * (grey[at] ?? 0)) / 4;
    }
  }
}

function reflect(grey: Uint8Array, corners: readonly Point[], strength: number, random: Random): void {
  const cx = corners.reduce((sum, [x]) => sum + x / 4, 0) + random.between(-60, 60);
  const cy = corners.reduce((sum, [, y]) => sum + y / 4, 0) + random.between(-60, 60);
  const [long, short, angle] = [random.between(200, 320), random.between(24, 60), random.between(0, Math.PI)];
  for (let at = 0; at < grey.length; at += 1) {
    const [dx, dy] = [(at % FRAME.width) - cx, Math.floor(at / FRAME.width) - cy];
    const along = (dx * Math.cos(angle) + dy * Math.sin(angle)) / long;
    const across = (-dx * Math.sin(angle) + dy * Math.cos(angle)) / short;
    const share = strength * Math.exp(-(along * along + across * across));
    if (share > 0.004) grey[at] = (grey[at] ?? 0) * (1 - share) + 255 * share;
  }
}

export interface CardScene {
  readonly picture: Rgba;
  readonly text: string;
}

/** One frame with one card in it. */
export async function cardScene(how: Hindrance, seed: number): Promise<CardScene> {
  const random = randomFrom(seed * 2654435761);
  const card: Card = { place: { rod: 1 + (seed % 4) }, step: "final_torque", subject: "cotter" };
  const corners = placeCorners(how, random);
  const grey = background(random);
  warp(grey, await flatCard(card, how.spots, random), corners);
  if (how.glare > 0) reflect(grey, corners, how.glare, random);
  const raw = { raw: { width: FRAME.width, height: FRAME.height, channels: 1 } } as const;
  const blurred = await sharp(grey, raw).blur(how.blur).toColourspace("b-w").raw().toBuffer();
  const data = new Uint8ClampedArray(blurred.length * 4);
  for (let at = 0; at < blurred.length; at += 1) {
    const level = (blurred[at] ?? 0) + random.between(-how.noise, how.noise);
    data.set([level, level, level, 255], at * 4);
  }
  return { picture: { data, ...FRAME }, text: cardText(card) };
}
