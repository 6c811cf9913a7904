// What the machinist said of a photo: with it, or as the next statement after it. The statement is theirs, the tool only sets it beside.
import type { Build, LoggedPhoto } from "../build/build.ts";
import { differentPlaces } from "./doubts.ts";

/** The words that stand beside a photo; undefined where none were said. */
export function statementOf(build: Build, photo: LoggedPhoto): string | undefined {
  if (photo.statement !== undefined) return photo.statement;
  let next = Number.POSITIVE_INFINITY;
  for (const { order } of build.photos.values()) if (order > photo.order && order < next) next = order;
  const said = [...build.notes].find(
    ({ note, order, step }) =>
      note.kind === "statement" &&
      order > photo.order &&
      order < next &&
      (step === undefined || step === photo.step) &&
      !differentPlaces(note.place ?? {}, photo.place),
  );
  return said?.note.text;
}
