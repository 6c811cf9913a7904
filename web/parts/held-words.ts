// A parcel that is held back, in a few words that tell a person which entry it is.
import { placeLabel } from "../../shared/places/places.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import type { Parcel } from "../store/parcel.ts";
import { figureLine } from "./figures.ts";

/** "ring gap number two top, twelve thou", "picture", "build opened: Mill engine". */
export function heldWords(parcel: Parcel): string {
  if (parcel.kind === "photo") return pictureWords(parcel.fields.statement);
  const { event } = parcel;
  const name = event.type.replace(/[._]/g, " ");
  switch (event.type) {
    case "utterance.heard":
      return event.data.text === "" ? "a sound without words" : `“${event.data.text}”`;
    case "reading.taken":
    case "reading.corrected": {
      const { reading } = event.data;
      const where = placeLabel(reading.place);
      return `${QUANTITIES[reading.quantity].label}${where === "" ? "" : `, ${where}`}, ${figureLine(reading)}`;
    }
    case "photo.taken":
      return pictureWords(event.data.statement);
    case "note.made":
      return `note: ${event.data.note.text}`;
    case "build.opened":
      return `${name}: ${event.data.name}`;
    default:
      return name;
  }
}

const pictureWords = (statement: string | undefined) => (statement === undefined ? "picture" : `picture: ${statement}`);

/** Without the events that came of words which are in the list themselves: a person gave one entry, not three. */
export function entriesAmong(parcels: readonly Parcel[]): Parcel[] {
  const said = new Set(parcels.map(({ id }) => id));
  return parcels.filter(({ kind, ...parcel }) => {
    const data: object = kind === "event" && "event" in parcel ? parcel.event.data : {};
    return !("utterance" in data && said.has(String(data.utterance)));
  });
}
