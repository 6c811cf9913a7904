// What a sentence would come to if it ended here: shown while the room is quiet for a moment, logged only when it has ended.
import { logUtterance } from "../../extractors/bench/index.ts";
import { apply, type Build } from "../../shared/build/index.ts";
import type { Parsed } from "../../shared/events/reading.ts";
import { evaluate } from "../../shared/rules/index.ts";
import type { Book } from "../store/book.ts";
import { stampFor } from "../store/words.ts";
import { type ReadBack, readBackOutcome } from "./read-back.ts";

/** Fold the sentence into a copy of the build and read back from there. The build itself is not touched. */
export function previewOf(book: Book, build: Build, parsed: Parsed): ReadBack {
  const { events, say } = logUtterance({ parsed, build, stamp: stampFor(book), heard: { by: "voice" } });
  const copy = structuredClone(build);
  for (const event of events) apply(copy, event);
  return readBackOutcome({ parsed, events, say }, copy, evaluate(copy));
}
