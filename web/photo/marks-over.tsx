// What was drawn on a picture, laid over it; the picture itself is never changed.
import type { PhotoFacts } from "../../shared/events/events.ts";
import { markPath, type PhotoMark } from "./marks.ts";

interface Props {
  readonly marks: readonly PhotoMark[];
  readonly photo: Pick<PhotoFacts, "width" | "height">;
}

/** An SVG in the picture's own shape, so that it covers it wherever it is fitted. */
export function MarksOver({ marks, photo: { width, height } }: Props) {
  if (marks.length === 0) return null;
  const stroke = Math.max(width, height) / 110;
  return (
    <svg class="marks-over" viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      {marks.map((mark) => {
        const path = markPath(mark, width, height);
        return (
          <g key={path} fill="none" stroke-linecap="round">
            <path d={path} stroke="#000" stroke-width={stroke * 1.9} stroke-opacity="0.7" />
            <path d={path} stroke="#ffd400" stroke-width={stroke} />
          </g>
        );
      })}
    </svg>
  );
}
