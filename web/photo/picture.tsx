// A photo in a list: its thumbnail with what was drawn on it; a tap opens it large.
import { useState } from "preact/hooks";
import type { Build, LoggedPhoto } from "../../shared/build/index.ts";
import { statementOf } from "../../shared/photo/statements.ts";
import { placeLabel } from "../../shared/places/places.ts";
import { photoUrl } from "../store/shop.ts";
import { LightBox } from "./light-box.tsx";
import { MarksOver } from "./marks-over.tsx";
import "./photo.css";

interface Props {
  readonly build: Build;
  readonly photo: LoggedPhoto;
  /** The pictures to leaf through; all of the build's where absent. */
  readonly among?: readonly LoggedPhoto[];
}

/** What a photo is called: what was said beside it, else where it is of. */
export const photoTitle = (build: Build, photo: LoggedPhoto): string =>
  statementOf(build, photo) ?? (placeLabel(photo.place) || "no place named");

export function Picture({ build, photo, among }: Props) {
  const [open, setOpen] = useState(false);
  return (
    <>
      <button
        type="button"
        class="picture-button"
        onClick={() => setOpen(true)}
        aria-label={`Open the picture: ${photoTitle(build, photo)}`}
      >
        <img src={photoUrl(photo.photo.sha256, "thumb")} alt={photoTitle(build, photo)} loading="lazy" width="220" height="165" />
        <MarksOver marks={photo.marks} photo={photo.photo} />
      </button>
      {open ? (
        <LightBox build={build} first={photo} among={among ?? [...build.photos.values()]} onClose={() => setOpen(false)} />
      ) : null}
    </>
  );
}
