// A picture's bytes in, a parcel for the shop out, durable on this device before anything is said of it.
import { v7 } from "uuid";
import type { Place } from "../../shared/places/places.ts";
import type { StepId } from "../../shared/steps/steps.ts";
import type { Book } from "../store/book.ts";
import { isoWithOffset } from "../store/clock.ts";
import { person } from "../store/device.ts";
import { sha256Hex } from "../store/sha256.ts";

export interface HandIn {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly type: string;
  /** Only what was said or picked; what is left out the shop takes from the card in the frame, then from where this device stands. */
  readonly place?: Place | undefined;
  readonly step?: StepId | undefined;
  readonly proof?: string | undefined;
  readonly statement?: string | undefined;
  /** Clock of the live camera; files bring their own time. */
  readonly shutter?: string | undefined;
}

/** Keep a picture for the shop; gives the id its event will have. */
export async function handIn(book: Book, photo: HandIn): Promise<string> {
  const id = v7();
  const at = isoWithOffset(new Date());
  const { bytes, type, place, step, proof, statement, shutter } = photo;
  const said = { step, proof, statement, shutter, place: place === undefined ? undefined : JSON.stringify(place) };
  const fields: Record<string, string> = { id, device: book.device, by: person.value, at };
  for (const [name, value] of Object.entries(said)) if (value !== undefined && value !== "") fields[name] = value;
  const sha256 = await sha256Hex(bytes);
  await book.logPhoto({ kind: "photo", id, build: book.id, at, sha256, type, fields }, bytes);
  return id;
}
