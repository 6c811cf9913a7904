// Scenes of bores: cross-hatch on the wall, a score, a ring with a feeler in its gap.
import { stamped } from "../kit.ts";
import type { Random } from "../random.ts";

/** The bore as an ellipse at the deck and a smaller one at the bottom: everything on the wall is drawn between them. */
interface View {
  readonly rx: number;
  readonly ry: number;
  readonly bottom: { readonly x: number; readonly y: number; readonly scale: number };
}

const VIEW: View = { rx: 520, ry: 440, bottom: { x: 20, y: 120, scale: 0.56 } };

/** Point on the wall: `angle` in radians round the bore, `depth` 0 at the deck to 1 at the bottom. */
function wall({ rx, ry, bottom }: View, angle: number, depth: number): [number, number] {
  // Depth runs slower near the bottom, as a lens sees it.
  const t = depth / (0.55 + 0.45 * depth);
  const scale = 1 + (bottom.scale - 1) * t;
  return [bottom.x * t + rx * scale * Math.cos(angle), bottom.y * t + ry * scale * Math.sin(angle)];
}

const at = (view: View, angle: number, depth: number) =>
  wall(view, angle, depth)
    .map((n) => n.toFixed(1))
    .join(" ");

function ellipse(view: View, depth: number): string {
  const [cx, cy] = [wall(view, 0, depth), wall(view, Math.PI, depth)].reduce(
    ([x, y], [px, py]) => [x + px / 2, y + py / 2],
    [0, 0],
  );
  const rx = (wall(view, 0, depth)[0] - wall(view, Math.PI, depth)[0]) / 2;
  return `cx="${cx.toFixed(1)}" cy="${cy.toFixed(1)}" rx="${rx.toFixed(1)}" ry="${((rx * view.ry) / view.rx).toFixed(1)}"`;
}

/** Deck, opening and wall with its light; `inside` is drawn on the wall. */
function bore(view: View, cylinder: number, inside: string, tone: string): string {
  const studs = [
    [-720, -430],
    [730, -400],
    [-740, 420],
    [720, 450],
  ]
    .map(
      ([x = 0, y = 0]) =>
        `<g transform="translate(${x} ${y})" filter="url(#near)"><circle r="58" fill="#32363a"/><circle r="46" fill="url(#steelH)" filter="url(#fine)"/><circle r="30" fill="none" stroke="#2b2f33" stroke-width="5"/><circle r="16" fill="none" stroke="#d5dade" stroke-width="3"/></g>`,
    )
    .join("");
  return `<rect x="-1300" y="-1100" width="2600" height="2200" fill="url(#machined)" filter="url(#ground)"/>${studs}
<clipPath id="hole"><ellipse ${ellipse(view, 0)}/></clipPath>
<linearGradient id="wallLight" x1="0" y1="0" x2="1" y2="0"><stop offset="0" stop-color="#2f3337"/><stop offset=".18" stop-color="${tone}"/><stop offset=".34" stop-color="#f1f3f4"/><stop offset=".5" stop-color="${tone}"/><stop offset=".72" stop-color="#5b6167"/><stop offset="1" stop-color="#25282b"/></linearGradient>
<ellipse ${ellipse(view, 0)} fill="#0d0e0f" stroke="#000" stroke-width="26" opacity=".4" filter="url(#soft)"/>
<g clip-path="url(#hole)"><ellipse ${ellipse(view, 0)} fill="url(#wallLight)" filter="url(#fine)"/>${inside}
<ellipse ${ellipse(view, 1)} fill="#0a0b0c"/><ellipse ${ellipse(view, 1)} fill="none" stroke="#15181a" stroke-width="30" opacity=".6" filter="url(#soft)"/><ellipse ${ellipse(view, 0.06)} fill="none" stroke="#000" stroke-width="60" opacity=".25" filter="url(#soft)"/></g>
<ellipse ${ellipse(view, 0)} fill="none" stroke="#f7f9fa" stroke-width="7" opacity=".85"/><ellipse ${ellipse(view, 0.012)} fill="none" stroke="#3a3e42" stroke-width="4" opacity=".7"/>
${stamped(String(cylinder), -600, -380, 110)}`;
}

/** Strokes of the hone crossing at a shallow angle, each only part of the wall long. */
function honing(view: View, random: Random, count: number, strength: number): string {
  let lines = "";
  for (let index = 0; index < count; index += 1) {
    const direction = index % 2 ? 1 : -1;
    const from = random.between(0.01, 0.9);
    const long = Math.min(random.between(0.12, 0.4), 1 - from);
    const start = random.between(0, Math.PI * 2);
    let path = "";
    for (let step = 0; step <= 10; step += 1) {
      path += `${step ? "L" : "M"}${at(view, start + (direction * 3.3 * long * step) / 10, from + (long * step) / 10)}`;
    }
    const bright = random.between(0, 1) < 0.6;
    const opacity = strength * random.between(0.25, 1);
    lines += `<path d="${path}" stroke="${bright ? "#ffffff" : "#14171a"}" stroke-opacity="${opacity.toFixed(2)}" stroke-width="${random.between(0.8, 2.2).toFixed(1)}"/>`;
  }
  return `<g fill="none">${lines}</g>`;
}

/** A wall fresh from the hone: cross-hatch over its whole length. */
export function hatch(cylinder: number, random: Random): string {
  return bore(VIEW, cylinder, honing(VIEW, random, 1300, 0.42), "#a9afb4");
}

/** A worn wall: glaze, wear ridge under the deck, and one deep score with its satellites. */
export function score(cylinder: number, random: Random): string {
  const ridge = [0.1, 0.115, 0.13]
    .map(
      (d, n) =>
        `<ellipse ${ellipse(VIEW, d)} fill="none" stroke="${n === 1 ? "#141618" : "#e5e8ea"}" stroke-width="${n === 1 ? 7 : 4}" opacity=".7"/>`,
    )
    .join("");
  let scratches = "";
  for (let index = 0; index < 26; index += 1) {
    const angle = -1.9 + random.between(-0.11, 0.11);
    const [from, to] = [random.between(0.16, 0.5), random.between(0.6, 0.98)];
    scratches += `<path d="M${at(VIEW, angle, from)}L${at(VIEW, angle + random.between(-0.01, 0.01), to)}" stroke="#0c0d0e" stroke-opacity="${random.between(0.15, 0.5).toFixed(2)}" stroke-width="${random.between(1, 3).toFixed(1)}"/>`;
  }
  const deep = `<path d="M${at(VIEW, -1.9, 0.17)}L${at(VIEW, -1.895, 0.96)}" stroke="#050506" stroke-width="15"/><path d="M${at(VIEW, -1.885, 0.17)}L${at(VIEW, -1.88, 0.96)}" stroke="#f5f7f8" stroke-width="5" opacity=".8"/>`;
  const glaze = `<ellipse ${ellipse(VIEW, 0.3)} fill="none" stroke="#d9b98a" stroke-width="120" opacity=".16" filter="url(#softer)"/>`;
  return bore(VIEW, cylinder, `${glaze}${ridge}<g fill="none">${scratches}${deep}</g>`, "#8b9196");
}

/** A ring squared in the bore, a feeler blade through its gap. */
export function ringGap(cylinder: number, blade: string, random: Random): string {
  const view: View = { ...VIEW, bottom: { x: 10, y: 90, scale: 0.6 } };
  const depth = 0.3;
  const gap = random.between(-1.85, -1.3);
  const arc = (d: number, from: number, to: number) => {
    let path = "";
    for (let step = 0; step <= 60; step += 1) path += `${step ? "L" : "M"}${at(view, from + ((to - from) * step) / 60, d)}`;
    return path;
  };
  const [from, to] = [gap + 0.035, gap + Math.PI * 2 - 0.035];
  const ring = `<path d="${arc(depth, from, to)}" stroke="#050506" stroke-width="58" opacity=".55" transform="translate(6 14)" filter="url(#edge)"/><path d="${arc(depth, from, to)}" stroke="#83898f" stroke-width="50"/><path d="${arc(depth - 0.018, from, to)}" stroke="#d9dee2" stroke-width="12"/><path d="${arc(depth + 0.03, from, to)}" stroke="#4a4f54" stroke-width="10"/>`;
  const [gx, gy] = wall(view, gap, depth);
  const feeler = `<g transform="translate(${gx.toFixed(0)} ${gy.toFixed(0)}) rotate(${((gap * 180) / Math.PI - 90 + 5).toFixed(1)})" filter="url(#near)"><path d="M-24 -58 Q0 -76 24 -58 L30 700 L-30 700 Z" fill="url(#steelH)"/><path d="M-18 -50 L-24 690" stroke="#fff" stroke-width="4" opacity=".6"/><g transform="rotate(90 0 300)"><text x="0" y="318" font-family="DejaVu Sans Mono" font-weight="bold" font-size="46" fill="#17191b" text-anchor="middle">${blade}</text></g></g>`;
  return bore(view, cylinder, `${honing(view, random, 700, 0.34)}<g fill="none">${ring}</g>`, "#a3a9ae") + feeler;
}
