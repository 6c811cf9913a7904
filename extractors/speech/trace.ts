// How a sentence was read, kept as lines of text: tokens, candidates, what each refiner changed.
import type { Draft } from "./measure/draft.ts";
import type { Hypothesis } from "./measure/hypothesis.ts";
import { textOf } from "./numbers/decimal.ts";
import type { State } from "./state.ts";
import type { Token } from "./types.ts";

/** Collects the trace of one parse. */
export class Why {
  readonly lines: string[] = [];

  tokens(tokens: readonly Token[], repairs: readonly string[]): void {
    const said = tokens.map((token) => `${token.pause ? ", " : ""}${token.text}${marks(token)}`).join(" ");
    this.lines.push(`tokens: ${said}`);
    if (repairs.length > 0) this.lines.push(`repaired: ${repairs.join(", ")}`);
  }

  candidates(found: readonly Hypothesis[]): void {
    if (found.length === 0) this.lines.push("candidates: none");
    for (const one of found.slice(0, 6)) {
      this.lines.push(`candidate ${one.score.toFixed(1)}: ${one.drafts.map(draftText).join(" | ")}`);
    }
  }

  refined(name: string, before: State, after: State): void {
    for (const kept of before.kept) {
      const still = after.kept.find((k) => k.draft === kept.draft);
      if (still === undefined) this.lines.push(`${name}: dropped ${draftText(kept.draft)}`);
      else if (still.because !== kept.because) this.lines.push(`${name}: waits (${still.because}) ${draftText(kept.draft)}`);
    }
    for (const q of after.questions) {
      if (!before.questions.includes(q)) this.lines.push(`${name}: asks ${q.code}`);
    }
  }

  note(line: string): void {
    this.lines.push(line);
  }
}

function marks(token: Token): string {
  const { sense } = token;
  const kinds = [
    token.unknown ? "?" : "",
    sense.num === undefined ? "" : "num",
    sense.unit ?? "",
    sense.feat === undefined ? "" : `name:${sense.feat}`,
    sense.noun === undefined ? "" : `at:${sense.noun}`,
    sense.slots === undefined ? "" : sense.slots.map(([slot, value]) => `${slot}=${value}`).join("/"),
    sense.sign ?? "",
    sense.kind ?? "",
  ].filter((kind) => kind !== "");
  return kinds.length > 0 ? `[${kinds.join(" ")}]` : "";
}

function draftText(draft: Draft): string {
  const place = Object.entries(draft.place)
    .map(([slot, value]) => `${slot}=${value}`)
    .join(",");
  const notes = [draft.known, draft.value.fit, ...draft.flags];
  if (draft.missing.length > 0) notes.push(`missing ${draft.missing.join("+")}`);
  if (draft.absent.length > 0) notes.push(`absent ${draft.absent.join("+")}`);
  return `${draft.quantity} {${place}} ${textOf(draft.value.dec)} ${draft.value.unit} (${notes.join(", ")}; ${draft.score.toFixed(1)})`;
}
