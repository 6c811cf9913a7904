// A clip and where to look for what was said in it in, one decode of it out: in a whole grammar, or among what sounds like an
// earlier pass.
import { heardAt } from "./audio/sound.ts";
import { ownWords } from "./doubt/pass-words.ts";
import type { Pass } from "./doubt/vote.ts";
import type { Decoded, Decoder } from "./engine/decoder.ts";
import type { State } from "./grammar/automaton.ts";
import { rolesOf } from "./grammar/fsg.ts";
import type { Scope } from "./grammar/index.ts";
import { otherWays, soundSame } from "./grammar/other-ways.ts";
import type { GrammarShelf } from "./grammar/shelf.ts";
import type { Clip } from "./heard.ts";
import { type Meaning, meaningOf } from "./meaning.ts";
import { isPhoneWord, sentenceOf } from "./text.ts";
import type { HearOptions } from "./types.ts";
import { plainWord } from "./words/plain-word.ts";

/** What is looked for: a sentence of the grammar of `scope`, in a clip. */
export interface Sought {
  readonly scope: Scope;
  readonly clip: Clip;
  readonly options: HearOptions;
  /** Another was heard already: this one is gone by only where it counts, and costs less a second. */
  readonly better?: number | undefined;
  /** What settles nothing here is asked nowhere else. */
  readonly last?: boolean;
}

export class Passes {
  readonly #shelf: GrammarShelf;
  /** What texts come to while one clip is heard: its passes mostly hear the same. */
  readonly #meanings = new WeakMap<HearOptions, Map<string, Meaning>>();

  constructor(shelf: GrammarShelf) {
    this.#shelf = shelf;
  }

  #meaningOf(text: string, options: HearOptions): Meaning {
    const known = this.#meanings.get(options) ?? new Map<string, Meaning>();
    this.#meanings.set(options, known);
    const meaning = known.get(text) ?? meaningOf(text, options.context, options.spec);
    known.set(text, meaning);
    return meaning;
  }

  /** One decode with what is set, on the frequency scale `warp` and in the noise of pass number `turn`. */
  #decode({ clip, options }: Sought, warp: number, turn: number, by: Decoder): Pass {
    const decoded = by.decode(heardAt(clip.at(warp), turn));
    const text = sentenceOf(decoded.words.map(({ word }) => word));
    return { warp, turn, decoded, full: true, text, ...this.#meaningOf(text, options) };
  }

  /** Hear in the whole grammar, on the frequency scale `warp` and in the noise of pass number `turn`. */
  whole(sought: Sought, warp: number, turn = 0): Pass {
    const { scope, clip, options } = sought;
    return this.#decode(sought, warp, turn, this.#shelf.use(options.spec, options.context, scope, clip.inNoise));
  }

  /** Hear in the sentences about anything in outline. */
  outline({ clip, options }: Omit<Sought, "scope">, warp: number): Decoded {
    return this.#shelf.useOutline(options.spec, options.context).decode(heardAt(clip.at(warp), 0));
  }

  /** Where what sounds like a pass is looked for: what was heard to be about one thing may be about another that sounds like it. */
  #startOf({ scope, options }: Sought): State {
    return this.#shelf.grammar(options.spec, options.context, typeof scope === "string" ? scope : "all").start;
  }

  /**
   * A pass's sentence (words with roles), and those that come to the same here in nearly the same sounds. Those in just the same sounds
   * that would be asked about belong to them: no lead tells "crankpin four, one eight" from "crankpin for one, eight".
   */
  waysOf(pass: Pass, sought: Sought): readonly (readonly string[])[] {
    const own = ownWords(pass);
    const said = own.map((word) => plainWord(word));
    const others = [...otherWays(this.#startOf(sought), said)].filter((words) => words.join(" ") !== own.join(" "));
    const isSame = (words: readonly string[]) => {
      const { meaning, plain } = this.#meaningOf(sentenceOf(words), sought.options);
      return meaning === pass.meaning || (pass.plain && !plain && soundSame(words, own));
    };
    return [own, ...others.filter(isSame)];
  }

  /**
   * What hears the clip among the sentences that sound like `pass`, those of `unwanted` being `dearer` than they are, natural-log
   * units (infinitely, where that is left out), for as long as nothing else is heard among few; undefined where the grammar does not
   * have the pass, or nothing sounds like it.
   */
  among(
    pass: Pass,
    sought: Sought,
    unwanted: readonly (readonly string[])[] = [],
    dearer?: number,
  ): ((warp: number, turn: number) => Pass) | undefined {
    const { inNoise } = sought.clip;
    const decoder = this.#shelf.useRivals(this.#startOf(sought), ownWords(pass), inNoise, unwanted, dearer);
    return decoder && ((warp, turn) => ({ ...this.#decode(sought, warp, turn, decoder), full: false }));
  }

  /** Whether any other speech is heard in place of words of `pass`, though it is `dearer` than they are, natural-log units. */
  isOther(pass: Pass, { clip }: Sought, dearer: number): boolean {
    const decoder = this.#shelf.useOther(ownWords(pass), clip.inNoise, dearer);
    const { words } = decoder.decode(heardAt(clip.at(pass.warp), pass.turn));
    return words.some(({ word }) => isPhoneWord(word));
  }

  /** Hear known words (without roles) among what sounds like them; undefined where the grammar does not have them. */
  amongKnown(words: readonly string[], sought: Sought, warp: number): Pass | undefined {
    const { start } = this.#shelf.grammar(sought.options.spec, sought.options.context, "all");
    const known = rolesOf(start, words);
    const decoder = known && this.#shelf.useKnown(start, known);
    return decoder && this.#decode(sought, warp, 0, decoder);
  }
}
