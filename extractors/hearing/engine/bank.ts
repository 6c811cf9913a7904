// An ear's decoders, one for each kind of grammar: what is open, sentences in outline, and whatever is asked in between.
import { Decoder } from "./decoder.ts";
import type { Engine, HeldGaussians } from "./engine.ts";
import type { GaussianFiles } from "./model.ts";
import { CLOSE, LIGHT, type Scoring } from "./scoring.ts";
import { NARROW, PATIENT, type Search, WIDE } from "./search.ts";

/** What is heard by a decoder, and whether in noise; "known" is what was read aloud, so that its words are known. */
export type Role = "near" | "outline" | "small" | "near_in_noise" | "small_in_noise" | "known";

/** How it is listened to a voice: what is open is heard by `near`, and by `inNoise` in steady noise, where that is another. */
interface Manner {
  readonly scoring: Scoring;
  readonly near: Search;
  readonly inNoise?: Search;
}

const TO_A_STRANGER: Manner = { scoring: CLOSE, near: WIDE };
/** To one that the model is fitted to. */
const TO_ONE_KNOWN: Manner = { scoring: LIGHT, near: PATIENT, inNoise: NARROW };

const searchFor: Readonly<Record<Role, (manner: Manner) => Search>> = {
  near: ({ near }) => near,
  small: () => PATIENT,
  outline: () => PATIENT,
  near_in_noise: ({ near, inNoise = near }) => inNoise,
  small_in_noise: ({ inNoise = PATIENT }) => inNoise,
  // What the same words cost at several scales is compared: of nine voices' scales five came out otherwise by a narrower search.
  known: () => WIDE,
};

/** Whatever the shop is like. */
const ALWAYS_WANTED: readonly Role[] = ["near", "outline", "small"];

export class Bank {
  readonly #engine: Engine;
  readonly #dictionary: string;
  readonly #decoders = new Map<Role, Decoder>();
  #gaussians: HeldGaussians;
  #manner = TO_A_STRANGER;

  constructor(engine: Engine, dictionary: string) {
    this.#engine = engine;
    this.#dictionary = dictionary;
    this.#gaussians = engine.hold(undefined);
    for (const role of ALWAYS_WANTED) this.decoder(role);
  }

  /** The role of what hears in what is open, or among few sentences. */
  roleFor(of: "near" | "small", inNoise: boolean): Role {
    return inNoise && this.#manner.inNoise !== undefined ? `${of}_in_noise` : of;
  }

  /** The decoder of a role, opened when it is asked for the first time. */
  decoder(role: Role): Decoder {
    const open =
      this.#decoders.get(role) ??
      new Decoder(this.#engine, this.#dictionary, this.#gaussians, this.#manner.scoring, searchFor[role](this.#manner));
    this.#decoders.set(role, open);
    return open;
  }

  /** Whether that was asked for. */
  isOpen(role: Role): boolean {
    return this.#decoders.has(role);
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
    this.#manner = files === undefined ? TO_A_STRANGER : TO_ONE_KNOWN;
    for (const role of ALWAYS_WANTED) this.decoder(role);
  }

  close(): void {
    for (const decoder of this.#decoders.values()) decoder.close();
    this.#decoders.clear();
    this.#engine.letGo(this.#gaussians);
  }
}
