// Shared parts of the drawn pictures: metals, surfaces, light, stamped figures, arrows. SVG text in and out.
import type { Random } from "./random.ts";

export const WIDTH = 1600;
export const HEIGHT = 1200;

/** A surface under the part: fill, and the grain's frequencies and strength. */
const GROUNDS = {
  bench: { fill: "#85694c", grain: "0.0016 0.055", scale: 3.2, light: "#e8cba4" },
  plate: { fill: "#6d7378", grain: "0.006 0.5", scale: 2, light: "#dfe6ec" },
  rag: { fill: "#4d6178", grain: "0.24 0.28", scale: 3.4, light: "#c9d9ea" },
  board: { fill: "#a58a63", grain: "0.9 0.12", scale: 1.6, light: "#f3e1be" },
  tray: { fill: "#3f444a", grain: "0.05 0.05", scale: 3, light: "#bcc6d0" },
} as const;
export type Ground = keyof typeof GROUNDS;

/** Bumps lit from one side, laid over whatever is filled: cast skin, turned or ground metal. */
function skin(id: string, frequency: string, scale: number, seed: number, azimuth: number): string {
  return `<filter id="${id}" x="-5%" y="-5%" width="110%" height="110%" color-interpolation-filters="sRGB">
<feTurbulence type="fractalNoise" baseFrequency="${frequency}" numOctaves="4" seed="${seed}" result="n"/>
<feColorMatrix in="n" type="matrix" values="0 0 0 0 0  0 0 0 0 0  0 0 0 0 0  1 0 0 0 0" result="h"/>
<feDiffuseLighting in="h" surfaceScale="${scale}" diffuseConstant="1" lighting-color="#ffffff" result="l"><feDistantLight azimuth="${azimuth}" elevation="58"/></feDiffuseLighting>
<feComposite in="l" in2="SourceGraphic" operator="arithmetic" k1="1.18" k2="0" k3="0" k4="0" result="m"/>
<feComposite in="m" in2="SourceAlpha" operator="in"/></filter>`;
}

const stops = (...pairs: [number, string][]) =>
  pairs.map(([at, colour]) => `<stop offset="${at}" stop-color="${colour}"/>`).join("");

/** Gradients and filters every scene may use. */
export function defs(seed: number, azimuth: number): string {
  return `<defs>
${skin("cast", "0.35", 2.1, seed, azimuth)}
${skin("forged", "0.09 0.11", 2.6, seed + 1, azimuth)}
${skin("ground", "0.004 0.7", 0.9, seed + 2, azimuth)}
${skin("turned", "0.5 0.012", 0.9, seed + 3, azimuth)}
${skin("fine", "0.8", 0.8, seed + 4, azimuth)}
<filter id="shadow" x="-30%" y="-30%" width="160%" height="160%"><feGaussianBlur in="SourceAlpha" stdDeviation="16"/><feOffset dx="${Math.round(22 * Math.cos((azimuth * Math.PI) / 180))}" dy="26"/><feComponentTransfer><feFuncA type="linear" slope="0.62"/></feComponentTransfer><feMerge><feMergeNode/><feMergeNode in="SourceGraphic"/></feMerge></filter>
<filter id="near" x="-30%" y="-30%" width="160%" height="160%"><feGaussianBlur in="SourceAlpha" stdDeviation="5"/><feOffset dx="5" dy="8"/><feComponentTransfer><feFuncA type="linear" slope="0.6"/></feComponentTransfer><feMerge><feMergeNode/><feMergeNode in="SourceGraphic"/></feMerge></filter>
<filter id="soft" x="-40%" y="-40%" width="180%" height="180%"><feGaussianBlur stdDeviation="14"/></filter>
<filter id="softer" x="-40%" y="-40%" width="180%" height="180%"><feGaussianBlur stdDeviation="40"/></filter>
<filter id="edge" x="-20%" y="-20%" width="140%" height="140%"><feGaussianBlur stdDeviation="2.2"/></filter>
<linearGradient id="steelV" x1="0" y1="0" x2="0" y2="1">${stops([0, "#6b7177"], [0.16, "#dfe4e8"], [0.34, "#9aa1a8"], [0.62, "#565c62"], [0.86, "#8b9299"], [1, "#33383d"])}</linearGradient>
<linearGradient id="steelH" x1="0" y1="0" x2="1" y2="0">${stops([0, "#41464b"], [0.2, "#a9b0b6"], [0.36, "#eef1f3"], [0.56, "#8e959b"], [0.8, "#565b61"], [1, "#2c3034"])}</linearGradient>
<linearGradient id="forgedD" x1="0" y1="0" x2="1" y2="1">${stops([0, "#9ba0a4"], [0.45, "#7a7f84"], [1, "#4d5256"])}</linearGradient>
<linearGradient id="castD" x1="0" y1="0" x2="1" y2="1">${stops([0, "#8d9090"], [0.5, "#6c7071"], [1, "#484c4e"])}</linearGradient>
<linearGradient id="machined" x1="0" y1="0" x2="1" y2="1">${stops([0, "#d3d7da"], [0.5, "#a9aeb3"], [1, "#7f858b"])}</linearGradient>
<linearGradient id="babbitt" x1="0" y1="0" x2="1" y2="1">${stops([0, "#e4e3dc"], [0.5, "#bdbcb4"], [1, "#8f8f89"])}</linearGradient>
<linearGradient id="brass" x1="0" y1="0" x2="0" y2="1">${stops([0, "#8a6a2a"], [0.3, "#e6c877"], [0.6, "#a98238"], [1, "#5f4717"])}</linearGradient>
<linearGradient id="oil" x1="0" y1="0" x2="0" y2="1">${stops([0, "#c98f2c"], [0.4, "#8a5a14"], [1, "#3d2606"])}</linearGradient>
</defs>`;
}

/** The surface under the part, lit from the upper side. */
export function ground(kind: Ground, seed: number): string {
  const { fill, grain, scale, light } = GROUNDS[kind];
  const planks =
    kind === "bench"
      ? [270, 640, 990]
          .map(
            (y) =>
              `<rect x="-400" y="${y}" width="2400" height="5" fill="#2b1d10" opacity=".75"/><rect x="-400" y="${y + 5}" width="2400" height="2" fill="#c9a67c" opacity=".35"/>`,
          )
          .join("")
      : "";
  return `<filter id="grain" x="0" y="0" width="100%" height="100%" color-interpolation-filters="sRGB">
<feTurbulence type="fractalNoise" baseFrequency="${grain}" numOctaves="5" seed="${seed}"/>
<feColorMatrix type="matrix" values="0 0 0 0 0  0 0 0 0 0  0 0 0 0 0  1 0 0 0 0"/>
<feDiffuseLighting surfaceScale="${scale}" diffuseConstant="1.05" lighting-color="${light}" result="l"><feDistantLight azimuth="235" elevation="55"/></feDiffuseLighting>
<feComposite in="l" in2="SourceGraphic" operator="arithmetic" k1="1.35" k2="0" k3="0.05" k4="0"/></filter>
<g><rect x="-400" y="-400" width="2400" height="2000" fill="${fill}" filter="url(#grain)"/>${planks}</g>`;
}

/** Light falling off towards the corners, brightest at `x`, `y`. */
export function light(x: number, y: number, warm: boolean): string {
  return `<radialGradient id="lamp" gradientUnits="userSpaceOnUse" cx="${x}" cy="${y}" r="1250"><stop offset="0" stop-color="${warm ? "#fff1d6" : "#eef6ff"}" stop-opacity=".30"/><stop offset=".35" stop-color="#ffffff" stop-opacity=".05"/><stop offset=".6" stop-color="#000000" stop-opacity=".12"/><stop offset="1" stop-color="#05070a" stop-opacity=".68"/></radialGradient>
<rect width="${WIDTH}" height="${HEIGHT}" fill="url(#lamp)"/>`;
}

/** Figures punched into metal: a dark wall on the lit side, a bright one opposite. */
export function stamped(text: string, x: number, y: number, size: number, turn = 0): string {
  const glyph = (dx: number, dy: number, fill: string, opacity: number) =>
    `<text x="${x + dx}" y="${y + dy}" fill="${fill}" opacity="${opacity}">${text}</text>`;
  const depth = size / 22;
  return `<g font-family="DejaVu Sans Mono" font-weight="bold" font-size="${size}" text-anchor="middle" transform="rotate(${turn} ${x} ${y})">
${glyph(depth, depth * 1.2, "#f4f6f7", 0.75)}${glyph(-depth * 0.7, -depth * 0.7, "#0b0c0d", 0.85)}${glyph(0, 0, "#2a2d30", 0.96)}</g>`;
}

/** A pencilled or taped note. */
export function tape(text: string, x: number, y: number, width: number, turn: number): string {
  return `<g transform="translate(${x} ${y}) rotate(${turn})" filter="url(#near)"><path d="M0 4 L${width} 0 L${width - 4} 74 L6 78 Z" fill="#e9dfbd"/><path d="M0 4 L${width} 0 L${width - 1} 14 L1 18 Z" fill="#fff8dc" opacity=".6"/>
<text x="${width / 2}" y="53" font-family="DejaVu Sans" font-style="italic" font-size="42" fill="#23324a" text-anchor="middle">${text}</text></g>`;
}

/** Bent arrow, as a finger of chalk draws it. */
export function chalkArrow(path: string, head: string): string {
  return `<g fill="none" stroke="#f5f1e2" stroke-width="13" stroke-linecap="round" stroke-linejoin="round" opacity=".9"><path d="${path}"/><path d="${head}"/></g>`;
}

/** Oil smears and finger marks. */
export function smears(random: Random, count: number, x: number, y: number, spread: number): string {
  let out = "";
  for (let index = 0; index < count; index += 1) {
    const [cx, cy] = [x + random.between(-spread, spread), y + random.between(-spread, spread)];
    out += `<ellipse cx="${cx.toFixed(0)}" cy="${cy.toFixed(0)}" rx="${random.between(14, 70).toFixed(0)}" ry="${random.between(8, 34).toFixed(0)}" transform="rotate(${random.between(0, 180).toFixed(0)} ${cx.toFixed(0)} ${cy.toFixed(0)})" fill="#1c1206" opacity="${random.between(0.12, 0.34).toFixed(2)}" filter="url(#soft)"/>`;
  }
  return out;
}

/** Small print that every drawn picture carries. */
export const smallPrint = `<g font-family="DejaVu Sans" font-size="21" text-anchor="end"><text x="1579" y="1181" fill="#000" opacity=".75">drawn for the demo</text><text x="1578" y="1179" fill="#fff" opacity=".88">drawn for the demo</text></g>`;

export const points = (list: readonly (readonly [number, number])[]): string =>
  list.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" ");
