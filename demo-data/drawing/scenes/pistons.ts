// Scenes of pistons and timing: the mark on a crown, marks of two gears in line.
import { chalkArrow, stamped } from "../kit.ts";
import type { Random } from "../random.ts";

/** A crown seen from above: turned rings, arrow to the front, cylinder and oversize stamped in. */
export function frontMark(cylinder: number, random: Random): string {
  const turned = Array.from(
    { length: 46 },
    (_, n) =>
      `<circle r="${8 + n * 9.4}" fill="none" stroke="${n % 2 ? "#ffffff" : "#0e1012"}" stroke-opacity="${random.between(0.08, 0.26).toFixed(2)}" stroke-width="${random.between(1.5, 4).toFixed(1)}"/>`,
  ).join("");
  const wedge = (turn: number, opacity: number, spread: number) =>
    `<path d="M0 0 L${-spread} -440 A440 440 0 0 1 ${spread} -440 Z" fill="#fff" opacity="${opacity}" transform="rotate(${turn})" filter="url(#soft)"/>`;
  const turn = random.between(20, 60);
  const pin = `<path d="M-520 -120 L-440 -150 L-440 150 L-520 120 Z" fill="url(#steelV)"/><path d="M520 -120 L440 -150 L440 150 L520 120 Z" fill="url(#steelV)"/>`;
  return `<g filter="url(#shadow)">${pin}<circle r="468" fill="#3c4145" filter="url(#cast)"/><circle r="452" fill="url(#steelH)"/></g><circle r="440" fill="#9ba1a6" filter="url(#fine)"/><clipPath id="crown"><circle r="440"/></clipPath><g clip-path="url(#crown)">${wedge(turn, 0.5, 120)}${wedge(turn + 180, 0.4, 140)}${wedge(turn + 90, 0.16, 90)}${wedge(turn + 270, 0.14, 90)}${turned}<path d="M-440 0 A440 440 0 0 0 440 0 A520 520 0 0 1 -440 0 Z" fill="#000" opacity=".08"/></g>
<circle r="440" fill="none" stroke="#f6f8f9" stroke-width="5" opacity=".8"/><circle r="10" fill="#24272a"/><circle r="14" fill="none" stroke="#eef1f3" stroke-width="3"/>
<path d="M-22 -446 A440 440 0 0 1 22 -446 L10 -408 L-10 -408 Z" fill="#16181a"/><g transform="translate(0 -270)">${stamped("&#8593;", 0, 60, 190)}</g>${stamped("F", 150, -200, 120)}${stamped(String(cylinder), -10, 190, 170)}${stamped(".030", 0, 330, 76)}`;
}

/** Outline of a gear with `teeth` teeth round 0,0. */
function gear(radius: number, teeth: number, phase: number): string {
  const at = (r: number, angle: number) => `${(r * Math.cos(angle)).toFixed(1)} ${(r * Math.sin(angle)).toFixed(1)}`;
  const pitch = (Math.PI * 2) / teeth;
  let path = "";
  for (let tooth = 0; tooth < teeth; tooth += 1) {
    const a = phase + tooth * pitch;
    path += `${tooth ? "L" : "M"}${at(radius - 26, a - pitch * 0.34)}L${at(radius + 26, a - pitch * 0.15)}L${at(radius + 26, a + pitch * 0.15)}L${at(radius - 26, a + pitch * 0.34)}`;
  }
  return `${path}Z`;
}

function wheel(x: number, radius: number, teeth: number, phase: number, spokes: number): string {
  const web = Array.from(
    { length: spokes },
    (_, n) =>
      `<circle cx="${(radius * 0.56 * Math.cos((n * 2 * Math.PI) / spokes + 0.3)).toFixed(0)}" cy="${(radius * 0.56 * Math.sin((n * 2 * Math.PI) / spokes + 0.3)).toFixed(0)}" r="${(radius * 0.17).toFixed(0)}" fill="#15181a"/>`,
  ).join("");
  return `<g transform="translate(${x} 0)"><g filter="url(#shadow)"><path d="${gear(radius, teeth, phase)}" fill="url(#machined)" filter="url(#turned)"/></g><circle r="${radius - 34}" fill="url(#castD)" filter="url(#cast)"/><circle r="${radius - 34}" fill="none" stroke="#1b1e20" stroke-width="6" opacity=".7"/>${web}<circle r="${(radius * 0.3).toFixed(0)}" fill="url(#machined)" filter="url(#turned)"/><circle r="${(radius * 0.17).toFixed(0)}" fill="url(#steelH)"/><rect x="-16" y="${(-radius * 0.24).toFixed(0)}" width="32" height="${(radius * 0.14).toFixed(0)}" fill="#101214"/></g>`;
}

/** Crank gear and cam gear in mesh, one punched dot between two. */
export function timingMarks(): string {
  const [crank, cam] = [190, 380];
  const phase = Math.PI / 15;
  const dot = (x: number, y: number) =>
    `<circle cx="${x}" cy="${y}" r="15" fill="#0d0e0f"/><circle cx="${x + 3}" cy="${y + 4}" r="15" fill="none" stroke="#fbfcfd" stroke-width="4" opacity=".85"/>`;
  return `<rect x="-1000" y="-800" width="2000" height="1700" fill="#565b5f" filter="url(#cast)"/>${wheel(-390, crank, 15, 0, 4)}${wheel(185, cam, 30, Math.PI - phase / 2 + phase / 2 + Math.PI / 30, 6)}
${dot(-390 + crank - 6, 0)}${dot(185 - cam + 38, -38)}${dot(185 - cam + 38, 38)}${chalkArrow("M-250 330 C-230 210 -214 140 -196 80", "M-226 118 L-194 76 L-176 130")}<text x="-390" y="410" font-family="DejaVu Sans" font-style="italic" font-size="54" fill="#f5f1e2" opacity=".9">dot between two</text>`;
}
