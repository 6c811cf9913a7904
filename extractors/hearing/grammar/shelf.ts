// The grammars of this session, kept from one sentence to the next, and which of them each decoder has set.
import type { Context } from "../../../shared/events/reading.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import type { Bank, Role } from "../engine/bank.ts";
import type { State } from "./automaton.ts";
import { buildGrammar, type Grammar, grammarKey, type Scope, withoutFocus } from "./index.ts";
import { otherSpeechFsg } from "./other-speech.ts";
import { outlineFsg } from "./outline.ts";
import { rivalsFsg } from "./rivals.ts";

const MOST_KEPT = 32;

/** The decoder that hears in a scope. */
export const roleOf = (scope: Scope): Role => (scope === "near" ? scope : "small");

export class GrammarShelf {
  readonly #bank: Bank;
  readonly #grammars = new Map<string, Grammar>();
  readonly #set = new Map<Role, Grammar | string>();

  constructor(bank: Bank) {
    this.#bank = bank;
  }

  /** The grammar of a scope, built when it is asked for the first time. */
  grammar(spec: Spec, context: Context, scope: Scope): Grammar {
    const open = scope === "near" ? context : withoutFocus(context);
    const key = grammarKey(spec, open, scope);
    const kept = this.#grammars.get(key) ?? buildGrammar(spec, open, scope);
    // Put last again, so that what is asked for most stays.
    this.#grammars.delete(key);
    this.#grammars.set(key, kept);
    const oldest = this.#grammars.keys().next().value;
    if (this.#grammars.size > MOST_KEPT && oldest !== undefined) this.#grammars.delete(oldest);
    return kept;
  }

  /** Set the grammar of a scope on its decoder, where it is not set yet. */
  use(spec: Spec, context: Context, scope: Scope): void {
    const grammar = this.grammar(spec, context, scope);
    this.#setOn(roleOf(scope), grammar, () => grammar.fsg);
  }

  /** Set the sentences about anything in outline on their decoder, where they are not set yet. */
  useOutline(spec: Spec, context: Context): void {
    const { start } = this.grammar(spec, context, "all");
    this.#setOn("outline", [spec.id, spec.version].join("|"), () => outlineFsg(start, spec));
  }

  /**
   * Set the sentences that sound like `heard` (words with roles) on the small decoder, those in `unwanted` so much dearer, or left out
   * (see `rivalsFsg`); false where `start` does not have it, or nothing sounds like it.
   */
  useRivals(start: State, heard: readonly string[], unwanted?: readonly (readonly string[])[], dearer?: number): boolean {
    const rivals = rivalsFsg(start, heard, unwanted, dearer);
    if (rivals !== undefined) this.#setOn("small", rivals, () => rivals);
    return rivals !== undefined;
  }

  /** Set `heard` (words with roles), or any other speech so much dearer, on the small decoder (see `otherSpeechFsg`). */
  useOther(heard: readonly string[], dearer: number): void {
    const other = otherSpeechFsg(heard, dearer);
    this.#setOn("small", other, () => other);
  }

  /** The decoders are others now: no grammar is set on them. */
  forgetSet(): void {
    this.#set.clear();
  }

  #setOn(role: Role, key: Grammar | string, fsg: () => string): void {
    if (this.#set.get(role) === key) return;
    this.#bank.decoder(role).setGrammar(fsg());
    this.#set.set(role, key);
  }
}
