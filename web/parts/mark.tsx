// A verdict as shape and word: disc, triangle, crossed square, open bar and the rest.
import type { JSX } from "preact";
import { MARK_WORDS, type MarkName } from "./verdict.ts";

/** Drawn in a 24 by 24 field with the text's colour; `cut` is the paper's colour showing through. */
const SHAPES: Readonly<Record<MarkName, JSX.Element>> = {
  pass: <circle cx="12" cy="12" r="10" />,
  warn: (
    <>
      <path d="M12 1.5 23.5 22.5H.5z" />
      <path class="cut" d="M12 8.5v7M12 18v2" />
    </>
  ),
  fail: (
    <>
      <path d="M2 2h20v20H2z" />
      <path class="cut" d="M7 7l10 10M17 7L7 17" />
    </>
  ),
  unknown: <path class="line" d="M3 6h18v12H3zM8 12h8" />,
  waiting: (
    <>
      <circle class="line" cx="12" cy="12" r="9.5" />
      <path d="M12 2.5a9.5 9.5 0 0 1 0 19z" />
    </>
  ),
  struck: <path class="line" d="M2 12h20" />,
  older: <path class="line" d="M3 17h18M3 12h12M3 7h7" />,
  stale: <path class="line" d="M12 2.5 21.5 12 12 21.5 2.5 12zM8 12h8" />,
  free: <circle class="line" cx="12" cy="12" r="4" />,
};

/** A verdict's shape alone; its word must stand beside it or be given as the label of what holds it. */
export function Shape({ mark }: { mark: MarkName }) {
  return (
    <svg class="shape" viewBox="0 0 24 24" aria-hidden="true">
      {SHAPES[mark]}
    </svg>
  );
}

/** Shape and word; `word` replaces the mark's own. */
export function Mark({ mark, word }: { mark: MarkName; word?: string }) {
  return (
    <span class={`mark mark-${mark}`}>
      <Shape mark={mark} />
      <span>{word ?? MARK_WORDS[mark]}</span>
    </span>
  );
}
