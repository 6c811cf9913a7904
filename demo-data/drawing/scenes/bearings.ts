// Scenes of bearings: a blue print, a pressed gauge strip beside its scale.
import { stamped } from "../kit.ts";
import type { Random } from "../random.ts";

/** A half bearing lying open, with blue where the journal touched: patches from thresholded noise. */
export function bluePrint(main: number, seed: number): string {
  const shell = "M-560 -330 L560 -330 L560 330 L-560 330 Z";
  const patches = `<filter id="patches" x="0" y="0" width="100%" height="100%" color-interpolation-filters="sRGB"><feTurbulence type="fractalNoise" baseFrequency="0.014 0.024" numOctaves="6" seed="${seed}"/><feColorMatrix type="matrix" values="0 0 0 0 0.07  0 0 0 0 0.15  0 0 0 0 0.5  5.2 0 0 0 -2.1"/><feComposite in2="SourceAlpha" operator="in"/></filter>
<filter id="speck" x="0" y="0" width="100%" height="100%" color-interpolation-filters="sRGB"><feTurbulence type="fractalNoise" baseFrequency="0.09" numOctaves="3" seed="${seed + 9}"/><feColorMatrix type="matrix" values="0 0 0 0 0.04  0 0 0 0 0.09  0 0 0 0 0.38  14 0 0 0 -8.2"/><feComposite in2="SourceAlpha" operator="in"/></filter>`;
  const hollow = `<linearGradient id="hollow" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#33342f"/><stop offset=".2" stop-color="#8c8c85"/><stop offset=".45" stop-color="#d6d5cc"/><stop offset=".6" stop-color="#f6f5ee"/><stop offset=".78" stop-color="#b8b7ae"/><stop offset="1" stop-color="#4a4a45"/></linearGradient>`;
  const scrapes = Array.from({ length: 44 }, (_, n) => {
    const x = -540 + ((n * 277) % 1080);
    const y = -290 + ((n * 149) % 570);
    return `<path d="M${x} ${y} q22 ${n % 2 ? -12 : 12} 48 0" stroke="#fff" stroke-width="4" opacity=".28" fill="none"/>`;
  }).join("");
  return `${patches}${hollow}<g filter="url(#shadow)"><path d="M-640 -420 L640 -420 L640 420 L-640 420 Z" fill="url(#castD)" filter="url(#cast)"/>
<rect x="-640" y="-420" width="1280" height="84" fill="url(#machined)" filter="url(#ground)"/><rect x="-640" y="336" width="1280" height="84" fill="url(#machined)" filter="url(#ground)"/></g>
<path d="${shell}" fill="url(#hollow)" filter="url(#fine)"/>${scrapes}
<g opacity=".86"><rect x="-545" y="-262" width="1090" height="524" rx="40" fill="#12338f" filter="url(#patches)"/></g><rect x="-545" y="-262" width="1090" height="524" rx="40" fill="#0b1c60" filter="url(#speck)" opacity=".8"/>
<rect x="-24" y="-330" width="48" height="660" fill="#262722" opacity=".9"/><rect x="20" y="-330" width="6" height="660" fill="#fff" opacity=".45"/><circle cx="0" cy="0" r="44" fill="#0b0c0b"/><circle cx="0" cy="0" r="44" fill="none" stroke="#eceae0" stroke-width="5"/>
<path d="M-560 -330 H560 M-560 330 H560" stroke="#101110" stroke-width="6"/><path d="M-560 -322 H560" stroke="#f6f5ee" stroke-width="3" opacity=".35"/>
${stamped(String(main), -590, 398, 72)}${stamped(String(main), 590, -354, 72)}`;
}

/** Widths of the printed bars in px for each thou of clearance: wider where it was pressed flatter. */
const SCALE = [
  [".0015", 74],
  [".0020", 58],
  [".0025", 46],
  [".0030", 38],
  [".0040", 29],
] as const;

/** A crankpin with the pressed strip on it and the scale held beside. `clearance` in thou. */
export function gaugeStrip(rod: number, clearance: number, random: Random): string {
  const width = 116 / clearance;
  let wobble = "";
  const edge = (side: number) =>
    Array.from(
      { length: 21 },
      (_, n) =>
        `L${(side * (width / 2 + random.between(-2.6, 2.6))).toFixed(1)} ${(side < 0 ? -210 + n * 21 : 210 - n * 21).toFixed(0)}`,
    ).join("");
  wobble = `M${-width / 2} -210${edge(-1)}${edge(1)}Z`;
  const bars = SCALE.map(([label, bar], n) => {
    const y = -190 + n * 100;
    return `<rect x="${-bar / 2}" y="${y}" width="${bar}" height="56" fill="#23262a"/><text x="92" y="${y + 44}" font-family="DejaVu Sans Mono" font-size="38" fill="#23262a">${label}</text>`;
  }).join("");
  return `<g filter="url(#shadow)"><rect x="-900" y="-430" width="250" height="860" fill="url(#steelV)" filter="url(#cast)"/><rect x="650" y="-430" width="250" height="860" fill="url(#steelV)" filter="url(#cast)"/>
<rect x="-660" y="-300" width="1320" height="600" fill="url(#steelV)" filter="url(#turned)"/></g><rect x="-660" y="-300" width="26" height="600" fill="#000" opacity=".35" filter="url(#edge)"/><rect x="634" y="-300" width="26" height="600" fill="#000" opacity=".35" filter="url(#edge)"/><circle cx="330" cy="20" r="34" fill="#08090a"/><circle cx="330" cy="20" r="36" fill="none" stroke="#eef1f3" stroke-width="5" opacity=".8"/>
<g transform="translate(-240 -10)"><path d="${wobble}" fill="#7d5a78" filter="url(#near)"/><path d="${wobble}" fill="#c79fc0" opacity=".55" transform="scale(.55 1)" filter="url(#edge)"/></g>
<g transform="translate(20 10) rotate(${random.between(-2, 2).toFixed(1)})" filter="url(#near)"><rect x="-110" y="-270" width="340" height="560" fill="#f2ecd8"/><text x="60" y="-218" font-family="DejaVu Sans" font-size="30" fill="#23262a" text-anchor="middle">clearance, in</text>${bars}</g>
${stamped(String(rod), -775, 40, 120)}`;
}
