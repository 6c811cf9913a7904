// Scenes of rods: numbers on both halves, cotters in their nuts, dippers and the way of turning.
import { chalkArrow, points, stamped, tape } from "../kit.ts";
import type { Random } from "../random.ts";
import { bigEnd, castleNut } from "./rod.ts";

/** Rod and cap with the same figure on both sides of the parting line. */
export function capMarks(rod: number, random: Random): string {
  const side = 1;
  const marks =
    stamped(String(rod), side * 214, -62, 104, random.between(-5, 5)) +
    stamped(String(rod), side * 214, 96, 96, random.between(-5, 5));
  return bigEnd({ shims: 5, pinned: false, marks });
}

/** The underside of a cap, close: two castle nuts with cotters through stud and slot. */
export function cotters(rod: number, random: Random): string {
  const cap = "M-720 -360 L720 -360 L720 -40 C640 -20 600 60 470 66 L-470 66 C-600 60 -640 -20 -720 -40 Z";
  const nut = (x: number, turn: number, letter: string) =>
    `<g transform="translate(${x} 60) rotate(${turn}) scale(2.25)" filter="url(#near)"><rect x="-74" y="-10" width="148" height="12" rx="3" fill="url(#steelH)"/>${castleNut(true)}</g>${tape(letter, x - 60, -228, 120, random.between(-6, 6))}`;
  return `<g filter="url(#shadow)"><path d="${cap}" fill="url(#castD)" filter="url(#forged)"/><path d="M-720 -40 C-640 -20 -600 60 -470 66 L470 66 C600 60 640 -20 720 -40" fill="none" stroke="#e9edf0" stroke-width="5" opacity=".4"/><rect x="-720" y="-372" width="1440" height="16" fill="#d8b763"/><rect x="-720" y="-364" width="1440" height="3" fill="#6c5420"/>
<ellipse cx="0" cy="-130" rx="190" ry="110" fill="#000" opacity=".18" filter="url(#soft)"/>${stamped(String(rod), 0, -90, 150, random.between(-4, 4))}</g>${nut(-360, random.between(-5, 5), "A")}${nut(350, random.between(-5, 5), "B")}`;
}

/** A cap's dipper over its trough; `leading` means the mouth faces the way it travels at the bottom. */
export function dipper(rod: number, leading: boolean, random: Random): string {
  const flip = leading ? 1 : -1;
  const scoop = `<g transform="scale(${flip} 1)"><path d="M-62 180 L62 180 L74 250 C84 330 60 392 -10 418 L-92 432 C-104 380 -100 330 -74 300 C-60 280 -60 230 -62 180 Z" fill="url(#steelH)" filter="url(#ground)"/><path d="M-60 190 C-56 240 -52 280 -70 306 C-94 334 -100 380 -92 428" fill="none" stroke="#f4f6f8" stroke-width="7" opacity=".7"/>
<ellipse cx="-88" cy="374" rx="30" ry="60" transform="rotate(9 -88 374)" fill="#0b0c0d"/><ellipse cx="-88" cy="374" rx="30" ry="60" transform="rotate(9 -88 374)" fill="none" stroke="#dfe3e6" stroke-width="6"/><path d="M-110 330 A30 60 9 0 0 -98 428" fill="none" stroke="#6a7076" stroke-width="9"/></g>`;
  const drops = Array.from(
    { length: 5 },
    () =>
      `<ellipse cx="${random.between(-420, 420).toFixed(0)}" cy="${random.between(500, 548).toFixed(0)}" rx="${random.between(10, 60).toFixed(0)}" ry="5" fill="#ffdf9a" opacity=".55"/>`,
  ).join("");
  const trough = `<path d="M-760 470 L760 470 L690 640 L-690 640 Z" fill="#3b3f43" filter="url(#forged)"/><path d="M-716 488 L716 488 L676 600 L-676 600 Z" fill="url(#oil)"/>${drops}<polygon points="${points(
    [
      [-716, 488],
      [716, 488],
      [708, 500],
      [-708, 500],
    ],
  )}" fill="#ffe6b0" opacity=".5"/>`;
  const arrow = `<g transform="translate(-520 -260)"><rect x="-30" y="-64" width="390" height="150" rx="6" fill="#2b3d33" filter="url(#near)"/>${chalkArrow("M310 34 C230 -30 110 -30 34 20", "M84 -14 L30 22 L92 48")}</g>`;
  return `${trough}<g>${scoop}</g>${bigEnd({ shims: 4, pinned: true, marks: stamped(String(rod), 214, 92, 92) })}${arrow}`;
}
