// An ear's decoders, one for each kind of grammar: the large one takes a fifth of a second to set, and is set once.
import { Decoder } from "./decoder.ts";
import type { Engine } from "./engine.ts";

export type Role = "near" | "all" | "small";

const ROLES: readonly Role[] = ["near", "all", "small"];

export class Bank {
  readonly #engine: Engine;
  readonly #dictionary: string;
  #decoders: Readonly<Record<Role, Decoder>>;

  constructor(engine: Engine, dictionary: string) {
    this.#engine = engine;
    this.#dictionary = dictionary;
    this.#decoders = this.#openAll();
  }

  #openAll(means?: Uint8Array): Record<Role, Decoder> {
    const opened = ROLES.map((role) => [role, new Decoder(this.#engine, this.#dictionary, means)] as const);
    return Object.fromEntries(opened) as Record<Role, Decoder>;
  }

  decoder(role: Role): Decoder {
    return this.#decoders[role];
  }

  /** One more decoder with these means, or the model's own, for the steps of `use`, and no longer where they are left. */
  *borrow<T>(means: Uint8Array | undefined, use: (decoder: Decoder) => Generator<undefined, T>): Generator<undefined, T> {
    const decoder = new Decoder(this.#engine, this.#dictionary, means);
    try {
      return yield* use(decoder);
    } finally {
      decoder.close();
    }
  }

  /** Listen with other means (a whole file of them), or with the model's own. No grammar is set afterwards. */
  reopen(means: Uint8Array | undefined): void {
    this.close();
    this.#decoders = this.#openAll(means);
  }

  close(): void {
    for (const decoder of Object.values(this.#decoders)) decoder.close();
  }
}
