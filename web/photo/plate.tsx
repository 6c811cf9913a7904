// One large picture: its thumbnail at once, the full one over it when it has come, marks over both, drawn on with the finger.
import { useRef, useState } from "preact/hooks";
import type { LoggedPhoto } from "../../shared/build/index.ts";
import { photoUrl } from "../store/shop.ts";
import { markOfDrag, onPicture, type PhotoMark } from "./marks.ts";
import { MarksOver } from "./marks-over.tsx";

interface Props {
  readonly photo: LoggedPhoto;
  readonly title: string;
  /** What a drag draws; undefined while nothing is to be drawn. */
  readonly drawing?: PhotoMark["kind"] | undefined;
  readonly onMark?: (mark: PhotoMark) => void;
}

interface Drag {
  readonly from: { x: number; y: number };
  readonly to: { x: number; y: number };
}

export function Plate({ photo, title, drawing, onMark }: Props) {
  const { width, height, sha256 } = photo.photo;
  const face = useRef<HTMLDivElement>(null);
  const [full, setFull] = useState<"coming" | "here" | "failed">("coming");
  const [drag, setDrag] = useState<Drag>();
  const at = (event: PointerEvent) =>
    onPicture(event.clientX, event.clientY, face.current?.getBoundingClientRect() ?? new DOMRect(0, 0, 1, 1));
  const begin = (event: PointerEvent) => {
    if (drawing === undefined) return;
    event.preventDefault();
    face.current?.setPointerCapture(event.pointerId);
    setDrag({ from: at(event), to: at(event) });
  };
  const end = (event: PointerEvent) => {
    if (drawing === undefined || drag === undefined) return;
    const mark = markOfDrag(drawing, drag.from, at(event));
    setDrag(undefined);
    if (mark !== undefined) onMark?.(mark);
  };
  const half = drag === undefined || drawing === undefined ? undefined : markOfDrag(drawing, drag.from, drag.to);
  return (
    <figure class="plate">
      <div
        ref={face}
        class={`plate-face${drawing === undefined ? "" : " plate-drawing"}`}
        style={{ aspectRatio: `${width} / ${height}`, "--shape": width / height }}
        onPointerDown={begin}
        onPointerMove={(event) => (drag === undefined ? undefined : setDrag({ ...drag, to: at(event) }))}
        onPointerUp={end}
        onPointerCancel={() => setDrag(undefined)}
      >
        <img src={photoUrl(sha256, "thumb")} alt="" draggable={false} />
        <img
          key={sha256}
          class={full === "here" ? "plate-full" : "plate-full plate-coming"}
          src={photoUrl(sha256, "full")}
          alt={title}
          draggable={false}
          onLoad={() => setFull("here")}
          onError={() => setFull("failed")}
        />
        <MarksOver marks={half === undefined ? photo.marks : [...photo.marks, half]} photo={photo.photo} />
      </div>
      {full === "failed" ? (
        <p class="warning">The full picture could not be fetched from the shop; this is its thumbnail.</p>
      ) : null}
    </figure>
  );
}
