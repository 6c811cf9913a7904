// One picture taken without hands: counted down aloud, looked at, taken again while blurred, kept, and said back.
// Camera, voice and keeping are handed in, so that tests can stand in for them.
import type { Card } from "../../shared/photo/card.ts";
import { PHOTO_FLOORS } from "../../shared/photo/doubts.ts";
import { type Place, placeLabel } from "../../shared/places/places.ts";
import type { Frame } from "./camera.ts";
import type { Look } from "./look.ts";

export interface Shot {
  readonly frame: Frame;
  readonly look: Look;
  /** The device's clock when the shutter was pressed, ISO 8601 with offset. */
  readonly shutter: string;
}

export interface ShootDoor {
  grab(): Promise<Frame>;
  look(frame: Frame): Promise<Look>;
  /** Resolves when it has been said. */
  say(words: string): Promise<void>;
  pause(ms: number): Promise<void>;
  now(): string;
  /** Durable on this device when it resolves. */
  keep(shot: Shot): Promise<void>;
}

export interface ShootOptions {
  /** The place said with the command; the card in the frame is checked against it. */
  readonly said?: Place | undefined;
  /** Where the device stands in the job. */
  readonly here: Place;
}

export interface ShootResult {
  readonly shot: Shot;
  readonly sharp: boolean;
  /** What was said at the end. */
  readonly say: string;
}

/** Frames tried before the sharpest is kept as it is: a picture is never refused for its focus alone. */
const TRIES = 3;

const words = (subject: string) => subject.replaceAll("_", " ");

/** "rod 3, cap marks": what the kept picture is said to show. */
export function shotWords(card: Card | undefined, { said, here }: Pick<ShootOptions, "said" | "here">): string {
  const place = placeLabel(said ?? card?.place ?? here) || "no place";
  return card?.subject === undefined ? place : `${place}, ${words(card.subject)}`;
}

/** Take one picture and keep it. */
export async function shoot(door: ShootDoor, options: ShootOptions): Promise<ShootResult> {
  for (const count of ["three", "two", "one"]) await Promise.all([door.say(count), door.pause(700)]);
  let best: Shot | undefined;
  for (let tries = 0; tries < TRIES; tries += 1) {
    const frame = await door.grab();
    const shutter = door.now();
    const look = await door.look(frame);
    if (best === undefined || look.focus > best.look.focus) best = { frame, look, shutter };
    if (look.focus >= PHOTO_FLOORS.focus) break;
    if (tries < TRIES - 1) await Promise.all([door.say("blurred, again"), door.pause(900)]);
  }
  if (best === undefined) throw new RangeError("Expected at least one frame, got none");
  await door.keep(best);
  const sharp = best.look.focus >= PHOTO_FLOORS.focus;
  const say = `${shotWords(best.look.card, options)}, ${sharp ? "sharp" : "blurred"}, kept`;
  await door.say(say);
  return { shot: best, sharp, say };
}
