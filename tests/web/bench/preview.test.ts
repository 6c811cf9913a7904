// What is shown of a sentence before it is logged is what is answered once it has been, and showing it leaves the book alone.
import { describe, expect, it } from "vitest";
import { parse } from "../../../extractors/speech/index.ts";
import { contextOf } from "../../../shared/build/index.ts";
import { previewOf } from "../../../web/bench/preview.ts";
import { type ReadBack, readBackOutcome } from "../../../web/bench/read-back.ts";
import { Book } from "../../../web/store/book.ts";
import { ShopFailure } from "../../../web/store/failure.ts";
import { MemoryKeep } from "../../../web/store/memory-keep.ts";
import { Outbox } from "../../../web/store/outbox.ts";
import type { Carrier } from "../../../web/store/parcel.ts";
import { logWords } from "../../../web/store/words.ts";
import { opened, testStamp } from "../../support/events.ts";

const away = async (): Promise<never> => {
  throw new ShopFailure("out_of_reach", "no shop here", 0);
};
const NO_SHOP: Carrier = { meet: away, rowsAfter: away, putBlob: away, postEvents: away, postPhoto: away };

async function openBook(): Promise<Book> {
  const stamp = testStamp();
  const keep = new MemoryKeep();
  const book = new Book(stamp.build, { id: "phone", own: "phone", keep, db: undefined }, new Outbox(keep, NO_SHOP));
  await book.log([opened(stamp)]);
  return book;
}

function read(book: Book, text: string) {
  const { build } = book;
  if (build === undefined) throw new Error("Expected an open build, got none");
  return { build, parsed: parse(text, contextOf(build, book.device), build.spec) };
}

/** The answer without what is different each time something is logged: moments, and ids of what the book did not have before. */
function same(back: ReadBack | undefined, known: ReadonlySet<string>): unknown {
  const names = new Map<string, string>();
  const text = JSON.stringify(back, (key, value) => (key === "at" ? undefined : value));
  return JSON.parse(
    text.replace(/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g, (id) => {
      if (known.has(id)) return id;
      names.set(id, names.get(id) ?? `new ${names.size + 1}`);
      return names.get(id) ?? id;
    }),
  );
}

/** Said before, and then the sentence whose preview is held against its answer, with what that must contain. */
const SENTENCES: readonly (readonly [kind: string, before: readonly string[], sentence: string, answer: string])[] = [
  ["a reading that is good", [], "ring gap number two top, thirteen thou", "thirteen thou, good"],
  ["a reading that is out", [], "ring gap number three top, twenty one thou", "out; maximum 17.4"],
  ["a reading that waits", [], "bore one top thrust three eight seven", "Yes or no?"],
  [
    "the same place again",
    ["ring gap number two top, nine thou"],
    "ring gap number two top, thirteen thou",
    "thirteen thou, good",
  ],
  ["a correction", ["ring gap number two top, nine thou"], "scratch that make it thirteen thou", "two top, thirteen thou, good"],
  [
    "a correction after others of the kind",
    ["ring gap number two top, nine thou", "ring gap number three top, twelve thou", "ring gap number four top, nine thou"],
    "no, make it fourteen thou",
    "four top, fourteen thou, good",
  ],
  ["a re-tag", ["ring gap number two top, thirteen thou"], "that was number three, not two", "three top, thirteen thou, good"],
  ["an undo", ["ring gap number two top, nine thou", "ring gap number two top, thirteen thou"], "scratch that", "struck"],
  ["an undo with nothing there", [], "scratch that", "nothing to strike"],
  ["a yes", ["bore one top thrust three eight seven"], "confirm", "three eight seven, good"],
  ["a no", ["bore one top thrust three eight seven"], "wrong", "dropped"],
  [
    "a list of rings",
    [],
    "cylinder two ring gaps, twelve, thirteen, fourteen",
    "two second, thirteen thou, a list was said at once",
  ],
  [
    "a size that a clearance follows from",
    ["piston skirt number two three point nine oh oh seven"],
    "bore number two three point nine oh four nine",
    "out; limit 8 thou at most",
  ],
  ["a fit said as such", [], "piston clearance number two four thou", "four thou, good"],
  [
    "a bare value in what is open",
    ["open rings", "ring gap number two top, nine thou"],
    "thirteen thou",
    "two top, thirteen thou, good",
  ],
  ["a step", [], "open rings", "ings"],
  ["a place", ["open rings"], "go to number three", "3"],
  ["a note that changes a part", ["piston clearance number two four thou"], "changed the piston in number two", "noted"],
  ["a note and nothing else", [], "note: block is cracked by the water jacket", "noted"],
  ["talk", [], "hand me that rag would you", ""],
];

describe("a preview", () => {
  it.each(SENTENCES)("of %s says what is said once it is logged", async (_kind, before, sentence, answer) => {
    const book = await openBook();
    for (const text of before) await logWords(book, { text, heard: { by: "voice" } });
    const { build, parsed } = read(book, sentence);
    const was = structuredClone(build);
    const [known, found] = [new Set(build.seen), structuredClone(book.findings())];
    const preview = previewOf(book, parsed);
    expect(book.build).toBe(build);
    expect(build).toEqual(was);
    expect(book.findings()).toEqual(found);
    expect(preview?.text).toContain(answer);
    const outcome = await logWords(book, { text: sentence, parsed, heard: { by: "voice" } });
    const back = readBackOutcome(outcome, build, book.findings());
    expect(same(preview, known)).toEqual(same(back, known));
  });

  it("stays as it was shown when the book goes on", async () => {
    const book = await openBook();
    await logWords(book, { text: "ring gap number two top, nine thou", heard: { by: "voice" } });
    const preview = previewOf(book, read(book, "scratch that make it thirteen thou").parsed);
    const shown = structuredClone(preview);
    await logWords(book, { text: "scratch that make it twenty one thou", heard: { by: "voice" } });
    expect(preview).toEqual(shown);
  });

  it("is of nothing while no build is there", () => {
    const keep = new MemoryKeep();
    const book = new Book(testStamp().build, { id: "phone", own: "phone", keep, db: undefined }, new Outbox(keep, NO_SHOP));
    expect(previewOf(book, parse("ring gap number two top, nine thou", {}, opened(testStamp()).data.spec))).toBeUndefined();
  });
});
