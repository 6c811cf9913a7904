// Pictures looked at large: leafed through, two side by side, facts with their sources, arrows and circles drawn over them.
import { useEffect, useRef, useState } from "preact/hooks";
import { stampEvent } from "../../extractors/bench/index.ts";
import type { Build, LoggedPhoto } from "../../shared/build/index.ts";
import { statementOf } from "../../shared/photo/statements.ts";
import { placeLabel } from "../../shared/places/places.ts";
import { Writers } from "../parts/writers.tsx";
import { openBook } from "../store/bench.ts";
import { stampFor } from "../store/words.ts";
import { CardDoubt } from "./card-doubt.tsx";
import type { PhotoMark } from "./marks.ts";
import { factLines, takenWords } from "./photo-words.ts";
import { photoTitle } from "./picture.tsx";
import { Plate } from "./plate.tsx";

interface Props {
  readonly build: Build;
  readonly first: LoggedPhoto;
  readonly among: readonly LoggedPhoto[];
  readonly onClose: () => void;
}

/** An event of its own keeps the marks: the picture stays as it came. */
function saveMarks(photo: LoggedPhoto, marks: readonly PhotoMark[]): void {
  const book = openBook.value;
  if (book === undefined) return;
  void book.log([stampEvent(stampFor(book), "photo.marked", { target: photo.id, marks: [...marks] })]);
}

export function LightBox({ build, first, among, onClose }: Props) {
  const box = useRef<HTMLDialogElement>(null);
  const [id, setId] = useState(first.id);
  const [beside, setBeside] = useState<string>();
  const [drawing, setDrawing] = useState<PhotoMark["kind"]>();
  useEffect(() => {
    box.current?.showModal();
  }, []);
  const photo = build.photos.get(id) ?? first;
  const other = beside === undefined ? undefined : build.photos.get(beside);
  const index = among.findIndex((one) => one.id === photo.id);
  const leaf = (by: number) => {
    const next = among[index + by];
    if (next !== undefined) setId(next.id);
  };
  const keys = (event: KeyboardEvent) => {
    if (event.target instanceof HTMLSelectElement) return;
    if (event.key === "ArrowLeft") leaf(-1);
    if (event.key === "ArrowRight") leaf(1);
  };
  const pick = (kind: PhotoMark["kind"]) => setDrawing(drawing === kind ? undefined : kind);
  return (
    <dialog ref={box} class="light-box" aria-label={`Picture: ${photoTitle(build, photo)}`} onClose={onClose} onKeyDown={keys}>
      <div class="light-bar">
        <button type="button" class="small-button" disabled={index <= 0} onClick={() => leaf(-1)}>
          Earlier
        </button>
        <button type="button" class="small-button" disabled={index < 0 || index >= among.length - 1} onClick={() => leaf(1)}>
          Later
        </button>
        <Writers>
          <button type="button" class="small-button" aria-pressed={drawing === "arrow"} onClick={() => pick("arrow")}>
            Draw an arrow
          </button>
          <button type="button" class="small-button" aria-pressed={drawing === "circle"} onClick={() => pick("circle")}>
            Draw a circle
          </button>
          <button
            type="button"
            class="small-button"
            disabled={photo.marks.length === 0}
            onClick={() => saveMarks(photo, photo.marks.slice(0, -1))}
          >
            Take the last one off
          </button>
        </Writers>
        <Beside among={among} photo={photo} beside={beside} onPick={setBeside} />
        <button type="button" class="small-button light-close" onClick={() => box.current?.close()}>
          Close
        </button>
      </div>
      <div class={other === undefined ? "light-plates" : "light-plates light-two"}>
        <Sheet build={build} photo={photo} drawing={drawing} onMark={(mark) => saveMarks(photo, [...photo.marks, mark])} />
        {other === undefined ? null : <Sheet build={build} photo={other} />}
      </div>
    </dialog>
  );
}

function Beside({
  among,
  photo,
  beside,
  onPick,
}: {
  among: readonly LoggedPhoto[];
  photo: LoggedPhoto;
  beside: string | undefined;
  onPick: (id: string | undefined) => void;
}) {
  const others = among.filter(({ id }) => id !== photo.id);
  return (
    <label class="light-beside">
      Beside it
      <select
        value={beside ?? ""}
        onChange={({ currentTarget }) => onPick(currentTarget.value === "" ? undefined : currentTarget.value)}
      >
        <option value="">none</option>
        {others.map((other) => (
          <option key={other.id} value={other.id}>
            {placeLabel(other.place)}, {other.photo.taken.at.slice(0, 16).replace("T", " ")}
          </option>
        ))}
      </select>
    </label>
  );
}

type SheetProps = Omit<Parameters<typeof Plate>[0], "title"> & { readonly build: Build };

function Sheet({ build, photo, drawing, onMark }: SheetProps) {
  const statement = statementOf(build, photo);
  return (
    <div class="light-sheet">
      <Plate
        key={photo.id}
        photo={photo}
        title={photoTitle(build, photo)}
        {...(onMark === undefined ? {} : { onMark })}
        drawing={drawing}
      />
      <p class="light-title">
        <b>{placeLabel(photo.place) || "no place named"}</b>
        {statement === undefined ? null : <q class="heard">{statement}</q>}
      </p>
      <CardDoubt photo={photo} />
      <p>Taken {takenWords(photo.photo)}.</p>
      <p class="quiet">{factLines(photo.photo).join("; ")}.</p>
    </div>
  );
}
