// What a sentence would come to if it ended here: shown while the room is quiet for a moment, logged only when it has ended.
import { logUtterance } from "../../extractors/bench/index.ts";
import type { Parsed } from "../../shared/events/reading.ts";
import type { Book } from "../store/book.ts";
import { stampFor } from "../store/words.ts";
import { type ReadBack, readBackOutcome } from "./read-back.ts";

/** What the sentence would be answered with. Tried on a draft: the book is not touched, and its length costs nothing. */
export function previewOf(book: Book, parsed: Parsed): ReadBack | undefined {
  const draft = book.draft();
  if (draft === undefined) return undefined;
  const { build } = draft;
  const { events, say } = logUtterance({ parsed, build, stamp: stampFor(book), heard: { by: "voice" } });
  for (const event of events) draft.apply(event);
  return readBackOutcome({ parsed, events, say }, build, draft.findings());
}
