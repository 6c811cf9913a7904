// What the beginning of a sentence named, kept until the sentence is settled: the whole of it is heard as that first, and once.
import type { QuantityId } from "../../shared/quantities/types.ts";

export class Beginning {
  #named: { readonly sentence: number | undefined; readonly about: readonly QuantityId[] } | undefined;
  #inVain = false;

  /** Remember what sentence number `sentence` began with; false where the whole was heard as just that already, in vain. */
  note(sentence: number | undefined, about: readonly QuantityId[]): boolean {
    if (this.#inVain && about.length > 0 && this.of(sentence).join() === about.join()) return false;
    this.#named = { sentence, about };
    this.#inVain = false;
    return true;
  }

  /** What this sentence began with; nothing for a sentence without a number. */
  of(sentence: number | undefined): readonly QuantityId[] {
    return sentence !== undefined && this.#named?.sentence === sentence ? this.#named.about : [];
  }

  /** The whole sentence was heard as what it began with, and that settled nothing. */
  heardInVain(): void {
    this.#inVain = true;
  }

  forget(): void {
    this.#named = undefined;
    this.#inVain = false;
  }
}
