// The big end of a connecting rod, in the shape all rod scenes share: beam, eye, cap, shims, bolts.

/** Castle nut seen from its side, standing on its base at 0,0, growing downwards; `pin` draws a bent cotter. */
export function castleNut(pin: boolean): string {
  const flats = [
    [-62, -30, "#4c5156"],
    [-30, 30, "#b9bfc4"],
    [30, 62, "#6d7378"],
  ] as const;
  const body = flats
    .map(([left, right, fill]) => `<rect x="${left}" y="0" width="${right - left}" height="84" fill="${fill}"/>`)
    .join("");
  const crown = [-46, -10, 26]
    .map(
      (x, index) =>
        `<rect x="${x}" y="84" width="${index === 1 ? 20 : 22}" height="36" rx="2" fill="${["#5a6065", "#c4c9cd", "#787e84"][index]}"/>`,
    )
    .join("");
  const threads = [0, 1, 2, 3, 4, 5, 6]
    .map((n) => `<path d="M-22 ${96 + n * 9} L22 ${101 + n * 9}" stroke="#2e3236" stroke-width="3" opacity=".75"/>`)
    .join("");
  const cotter = pin
    ? `<g fill="none" stroke-linecap="round"><path d="M-66 103 a13 13 0 1 1 20 -2 L14 103" stroke="#2e2b26" stroke-width="13" opacity=".55" transform="translate(3 5)"/><path d="M-66 103 a13 13 0 1 1 20 -2 L16 102 C40 101 52 96 60 70 L63 30" stroke="#c9b98f" stroke-width="9"/><path d="M-46 103 L20 106 C42 110 40 132 22 150 L10 158" stroke="#ded1ab" stroke-width="9"/><path d="M-62 96 a8 8 0 0 1 10 -6" stroke="#fff6d8" stroke-width="3"/></g>`
    : `<ellipse cx="8" cy="104" rx="7" ry="6" fill="#0c0d0e"/>`;
  return `<g><g filter="url(#fine)">${body}<path d="M-62 0 L62 0 L56 10 L-56 10 Z" fill="#e6eaed" opacity=".7"/><rect x="-50" y="82" width="100" height="5" fill="#33383c"/><rect x="-24" y="84" width="48" height="76" fill="url(#steelH)"/>${threads}<rect x="-24" y="154" width="48" height="9" rx="3" fill="#8d949a"/>${crown}</g>${cotter}</g>`;
}

export interface BigEnd {
  /** Edges of shim laminations at the parting line. */
  readonly shims: number;
  readonly pinned: boolean;
  /** Drawn on the forging, in its own coordinates. */
  readonly marks: string;
}

/** Big end with its centre at 0,0, the eye 300 px across, beam upwards, nuts downwards. */
export function bigEnd({ shims, pinned, marks }: BigEnd): string {
  const rod = `M-62 -640 L62 -640 L78 -330 C90 -262 150 -236 236 -222 L262 -200 L262 -6 L-262 -6 L-262 -200 L-236 -222 C-150 -236 -90 -262 -78 -330 Z`;
  const cap = `M-262 6 L262 6 L262 108 L196 122 C168 214 96 262 0 262 C-96 262 -168 214 -196 122 L-262 108 Z`;
  const lamination = Array.from(
    { length: shims },
    (_, n) =>
      `<rect x="-268" y="${-6 + n * (12 / shims)}" width="112" height="${12 / shims - 1}" fill="${n % 2 ? "#c9a24a" : "#e8cb80"}"/><rect x="156" y="${-6 + n * (12 / shims)}" width="112" height="${12 / shims - 1}" fill="${n % 2 ? "#c9a24a" : "#e8cb80"}"/>`,
  ).join("");
  const nut = (x: number) => `<g transform="translate(${x} 108)" filter="url(#near)">${castleNut(pinned)}</g>`;
  const bolt = (x: number) =>
    `<rect x="${x - 34}" y="-236" width="68" height="40" rx="6" fill="url(#steelH)" filter="url(#fine)"/>`;
  return `<g filter="url(#shadow)">${bolt(-212)}${bolt(212)}
<path d="${rod}" fill="url(#forgedD)" filter="url(#forged)"/><path d="${cap}" fill="url(#forgedD)" filter="url(#forged)"/>
<path d="M-34 -640 L34 -640 L46 -330 C40 -280 -40 -280 -46 -330 Z" fill="#3d4246" opacity=".55" filter="url(#edge)"/><path d="M-34 -640 L-46 -330" stroke="#1d2023" stroke-width="6" opacity=".6"/><path d="M34 -640 L46 -330" stroke="#e0e4e7" stroke-width="4" opacity=".55"/>
<path d="${rod}" fill="none" stroke="#eef1f3" stroke-width="3" opacity=".35"/><path d="${cap}" fill="none" stroke="#141618" stroke-width="4" opacity=".5"/>
${lamination}
<circle r="176" fill="url(#machined)" filter="url(#turned)"/><circle r="168" fill="url(#babbitt)" filter="url(#fine)"/><circle r="150" fill="#17191b"/><circle r="150" fill="none" stroke="#f3f3ee" stroke-width="3" opacity=".7"/>
<path d="M-150 0 A150 150 0 0 0 150 0 L128 0 A128 128 0 0 1 -128 0 Z" fill="#a6a69f"/><path d="M-120 90 A150 150 0 0 0 120 90" fill="none" stroke="#fffef4" stroke-width="9" opacity=".5" filter="url(#edge)"/>
<path d="M-176 0 H-150 M150 0 H176" stroke="#101113" stroke-width="4"/>
${marks}</g>${nut(-212)}${nut(212)}`;
}
