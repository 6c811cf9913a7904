// Words to the log: read against the build as this device sees it, turned into events, kept. One utterance after the other,
// so that each is read in the place that the one before it left.
import { type Heard, logUtterance, type Stamp } from "../../extractors/bench/index.ts";
import { parse } from "../../extractors/speech/index.ts";
import { contextOf } from "../../shared/build/index.ts";
import type { BenchEvent } from "../../shared/events/events.ts";
import type { Parsed } from "../../shared/events/reading.ts";
import type { Book } from "./book.ts";
import { isoWithOffset } from "./clock.ts";
import { person } from "./device.ts";
import type { Blobs } from "./parcel.ts";

export interface Words {
  /** What was typed, or what the recogniser made of the sound with its own reading of it. */
  readonly text: string;
  readonly parsed?: Parsed;
  readonly heard: Heard;
  readonly blobs?: Blobs;
  /** Keep the words even when nothing was made of them. */
  readonly keep?: boolean;
}

export interface Outcome {
  readonly parsed: Parsed;
  readonly events: readonly BenchEvent[];
  readonly say: readonly string[];
}

/** A stamp of this device for one build. Numbers are given by the keep, where two tabs cannot get the same one. */
export function stampFor(book: Book): Stamp {
  return {
    build: book.id,
    device: book.device,
    by: person.value,
    now: () => isoWithOffset(new Date()),
    nextSeq: () => 0,
  };
}

let queue: Promise<unknown> = Promise.resolve();

/** Read words and log what they say; resolves when this device holds it durably. */
export function logWords(book: Book, words: Words): Promise<Outcome> {
  const result = queue.then(() => logNow(book, words));
  queue = result.catch(() => undefined);
  return result;
}

async function logNow(book: Book, { text, parsed: read, heard, blobs, keep }: Words): Promise<Outcome> {
  const { build } = book;
  if (build === undefined) throw new RangeError("Expected an open build for these words, got none");
  const parsed = read ?? parse(text, contextOf(build, book.device), build.spec);
  const logged = logUtterance({ parsed, build, stamp: stampFor(book), heard, ...(keep === undefined ? {} : { keep }) });
  const events = logged.events.length === 0 ? [] : await book.log(logged.events, blobs);
  return { parsed, events, say: logged.say };
}
