// An ear's decoders, one for each kind of grammar: what is open, sentences in outline, and whatever is asked in between.
import { Decoder } from "./decoder.ts";
import type { Engine, HeldGaussians } from "./engine.ts";
import type { GaussianFiles } from "./model.ts";
import { CLOSE, LIGHT, type Scoring } from "./scoring.ts";
import { NARROW, type Search, WIDE } from "./search.ts";

export type Role = "near" | "outline" | "small";

const SEARCHES: Readonly<Record<Role, Search>> = { near: WIDE, outline: NARROW, small: WIDE };

export class Bank {
  readonly #engine: Engine;
  readonly #dictionary: string;
  #gaussians: HeldGaussians;
  #decoders: Readonly<Record<Role, Decoder>>;

  constructor(engine: Engine, dictionary: string) {
    this.#engine = engine;
    this.#dictionary = dictionary;
    this.#gaussians = engine.hold(undefined);
    this.#decoders = this.#openAll(CLOSE);
  }

  #openAll(scoring: Scoring): Record<Role, Decoder> {
    const open = (role: Role) => new Decoder(this.#engine, this.#dictionary, this.#gaussians, scoring, SEARCHES[role]);
    return { near: open("near"), outline: open("outline"), small: open("small") };
  }

  decoder(role: Role): Decoder {
    return this.#decoders[role];
  }

  /** One more decoder with these Gaussians, or the model's own, for the steps of `use`, and no longer where they are left. */
  *borrow<T>(files: GaussianFiles | undefined, use: (decoder: Decoder) => Generator<undefined, T>): Generator<undefined, T> {
    const gaussians = this.#engine.hold(files);
    const decoder = new Decoder(this.#engine, this.#dictionary, gaussians);
    try {
      return yield* use(decoder);
    } finally {
      decoder.close();
      this.#engine.letGo(gaussians);
    }
  }

  /** Listen with Gaussians that are fitted to a voice, or with the model's own. No grammar is set afterwards. */
  reopen(files: GaussianFiles | undefined): void {
    this.close();
    this.#gaussians = this.#engine.hold(files);
    this.#decoders = this.#openAll(files === undefined ? CLOSE : LIGHT);
  }

  close(): void {
    for (const decoder of Object.values(this.#decoders)) decoder.close();
    this.#engine.letGo(this.#gaussians);
  }
}
