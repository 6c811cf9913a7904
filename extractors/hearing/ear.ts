// The ear's core, the same in Node and browser: holds one loaded model, keeps recent grammars, hears one utterance a call.
import type { Context } from "../../shared/events/reading.ts";
import type { Spec } from "../../shared/spec/spec.ts";
import { resample } from "./audio/resample.ts";
import { Decoder, ENGINE_RATE } from "./engine/decoder.ts";
import type { EngineFactory, EngineModule } from "./engine/module.ts";
import { plainWord } from "./grammar/fsg.ts";
import { buildGrammar, type Grammar, grammarKey } from "./grammar/index.ts";
import { sentenceOf } from "./text.ts";
import type { Heard, HearOptions } from "./types.ts";
import { fullDictionary } from "./words/dictionary.ts";

const KEPT_GRAMMARS = 24;

export class Ear {
  readonly #decoder: Decoder;
  readonly #grammars = new Map<string, Grammar>();
  #set: string | undefined;

  private constructor(decoder: Decoder) {
    this.#decoder = decoder;
  }

  /** Load the engine and the acoustic model. `modelBase` is an absolute folder or a URL, with a trailing slash. */
  static async open(factory: EngineFactory, modelBase: string, locate: Record<string, unknown> = {}): Promise<Ear> {
    const module = (await factory({ modelBase, ...locate })) as EngineModule;
    return new Ear(await Decoder.open(module, `${modelBase}en-us`, fullDictionary()));
  }

  #useGrammar(spec: Spec, context: Context): Grammar {
    const key = grammarKey(spec, context);
    let grammar = this.#grammars.get(key);
    if (grammar === undefined) {
      grammar = buildGrammar(spec, context);
      const oldest = this.#grammars.keys().next().value;
      if (this.#grammars.size >= KEPT_GRAMMARS && oldest !== undefined) this.#grammars.delete(oldest);
      this.#grammars.set(key, grammar);
    }
    if (this.#set !== key) {
      this.#decoder.setGrammar(grammar.fsg);
      this.#set = key;
    }
    return grammar;
  }

  hear(pcm: Float32Array, rate: number, { spec, context }: HearOptions): Heard {
    this.#useGrammar(spec, context);
    const decoded = this.#decoder.decode(resample(pcm, rate, ENGINE_RATE));
    const text = sentenceOf(decoded.words.map(({ word }) => word));
    return {
      text,
      seconds: pcm.length / rate,
      words: decoded.words.map(({ word, start, end }) => ({ word: plainWord(word), start, end, trust: 1 })),
      doubt: { words: [], others: [], agreement: 1, strangeness: 0 },
      snr: 99,
      verdict: text === "" ? "nothing" : "ok",
      warp: 1,
    };
  }

  close(): void {
    this.#decoder.close();
  }
}
