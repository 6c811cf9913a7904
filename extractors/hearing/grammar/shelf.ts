// The grammars of this session, kept from one sentence to the next, and which of them each decoder has set.
import type { Context } from "../../../shared/events/reading.ts";
import type { Spec } from "../../../shared/spec/spec.ts";
import type { Bank, Role } from "../engine/bank.ts";
import type { Decoder } from "../engine/decoder.ts";
import type { State } from "./automaton.ts";
import { buildGrammar, type Grammar, grammarKey, type Scope, withoutFocus } from "./index.ts";
import { otherSpeechFsg } from "./other-speech.ts";
import { outlineFsg } from "./outline.ts";
import { rivalsFsg } from "./rivals.ts";

const MOST_KEPT = 32;

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

  /** The decoder of a scope, with its grammar set. */
  use(spec: Spec, context: Context, scope: Scope, inNoise: boolean): Decoder {
    const grammar = this.grammar(spec, context, scope);
    const role = scope === "all" ? "known" : this.#bank.roleFor(scope === "near" ? scope : "small", inNoise);
    return this.#withSet(role, grammar, () => grammar.fsg);
  }

  /** The decoders of what is open, with that set: the one for noise where there was some before. */
  prepare(spec: Spec, context: Context): void {
    this.use(spec, context, "near", false);
    if (this.#bank.isOpen("near_in_noise")) this.use(spec, context, "near", true);
    this.useOutline(spec, context);
  }

  /** The decoder of sentences about anything in outline, with them set. */
  useOutline(spec: Spec, context: Context): Decoder {
    const { start } = this.grammar(spec, context, "all");
    return this.#withSet("outline", [spec.id, spec.version].join("|"), () => outlineFsg(start, spec));
  }

  /**
   * The small decoder, with the sentences set that sound like `heard` (words with roles), those in `unwanted` so much dearer, or left out
   * (see `rivalsFsg`); undefined where `start` does not have it, or nothing sounds like it.
   */
  useRivals(
    start: State,
    heard: readonly string[],
    inNoise: boolean,
    unwanted?: readonly (readonly string[])[],
    dearer?: number,
  ): Decoder | undefined {
    const rivals = rivalsFsg(start, heard, unwanted, dearer);
    return rivals === undefined ? undefined : this.#withSet(this.#bank.roleFor("small", inNoise), rivals, () => rivals);
  }

  /** The decoder of known words (with roles), with the sentences set that sound like them; undefined where nothing does. */
  useKnown(start: State, known: readonly string[]): Decoder | undefined {
    const rivals = rivalsFsg(start, known);
    return rivals === undefined ? undefined : this.#withSet("known", rivals, () => rivals);
  }

  /** The small decoder, with `heard` (words with roles), or any other speech so much dearer, set (see `otherSpeechFsg`). */
  useOther(heard: readonly string[], inNoise: boolean, dearer: number): Decoder {
    const other = otherSpeechFsg(heard, dearer);
    return this.#withSet(this.#bank.roleFor("small", inNoise), other, () => other);
  }

  /** The decoders are others now: no grammar is set on them. */
  forgetSet(): void {
    this.#set.clear();
  }

  #withSet(role: Role, key: Grammar | string, fsg: () => string): Decoder {
    const decoder = this.#bank.decoder(role);
    if (this.#set.get(role) !== key) decoder.setGrammar(fsg());
    this.#set.set(role, key);
    return decoder;
  }
}
