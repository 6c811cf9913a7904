// The box for words where no microphone is at hand. What is typed here is read exactly as if it had been said.

import { useState } from "preact/hooks";
import { readBackOutcome } from "../bench/read-back.ts";
import { exampleLine } from "../parts/figures.ts";
import { LOOKS_ONLY } from "../parts/writers.tsx";
import type { Book } from "../store/book.ts";
import { mayWrite } from "../store/caller.ts";
import { logWords } from "../store/words.ts";

/** Words being typed outlast the page: the phone may put it away, or a newer version take its place. */
function useHalfTyped(build: string): [string, (text: string) => void] {
  const name = `half-typed ${build}`;
  const [text, setText] = useState(() => ofWindow((kept) => kept.getItem(name)) ?? "");
  const keep = (next: string) => {
    setText(next);
    ofWindow((kept) => kept.setItem(name, next));
  };
  return [text, keep];
}

/** A browser that keeps nothing for pages throws at the mention of its storage. */
function ofWindow<T>(use: (kept: Storage) => T): T | undefined {
  try {
    return use(sessionStorage);
  } catch {
    return undefined;
  }
}

export function TypeBox({ book, onLogged }: { book: Book; onLogged?: () => void }) {
  const example = book.build === undefined ? "" : exampleLine(book.build.spec);
  const [text, setText] = useHalfTyped(book.id);
  const [answer, setAnswer] = useState("");
  const [busy, setBusy] = useState(false);
  const send = async (submit: Event) => {
    submit.preventDefault();
    const words = text.trim();
    if (words === "" || busy) return;
    setBusy(true);
    try {
      const outcome = await logWords(book, { text: words, heard: { by: "typed" } });
      const { build } = book;
      const nothing = outcome.events.length === 0;
      setAnswer(
        nothing || build === undefined
          ? `Nothing read there, nothing logged. Try: ${example}.`
          : readBackOutcome(outcome, build, book.findings()).text,
      );
      if (!nothing) {
        setText("");
        onLogged?.();
      }
    } catch (error) {
      setAnswer(`Not logged: ${error instanceof Error ? error.message : String(error)}`);
    } finally {
      setBusy(false);
    }
  };
  if (!mayWrite()) return <p class="quiet">{LOOKS_ONLY}</p>;
  return (
    <form class="type-box" onSubmit={(submit) => void send(submit)}>
      <label for="words">Say it in writing</label>
      <div class="type-row">
        <input
          id="words"
          value={text}
          maxLength={2000}
          autocomplete="off"
          autocapitalize="off"
          enterkeyhint="send"
          placeholder={example}
          onInput={(input) => setText(input.currentTarget.value)}
        />
        <button type="submit" class="stamp-button" disabled={busy}>
          Log it
        </button>
      </div>
      <p class="answer" role="status" aria-live="polite">
        {answer}
      </p>
    </form>
  );
}
