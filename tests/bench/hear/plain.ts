// The yardstick beside ours: the recogniser as it comes, with its stock dictionary and one plain grammar (any quantity, any
// place, any number, any unit, any sign), one decode, no doubt.
import createModule from "soundswallower";
import { modelFolder } from "../../../extractors/hearing/node/index.ts";
import { parse } from "../../../extractors/speech/index.ts";
import type { Context, Parsed } from "../../../shared/events/reading.ts";
import { ALL_QUANTITIES } from "../../../shared/quantities/registry.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";

interface StockDecoder {
  initialize(): Promise<void>;
  lookup_word(word: string): string | null;
  set_grammar(jsgf: string): void;
  start(): void;
  stop(): void;
  process_audio(pcm: Float32Array, noSearch: boolean, full: boolean): number;
  get_text(): string;
}

const NUMBERS =
  "zero | oh | one | two | three | four | five | six | seven | eight | nine | ten | eleven | twelve | thirteen | fourteen | fifteen | sixteen | seventeen | eighteen | nineteen | twenty | thirty | forty | fifty | sixty | seventy | eighty | ninety | hundred | and a half | half a | point | a sixteenth";

function grammar(decoder: StockDecoder): string {
  const known = (phrase: string) => phrase.split(" ").every((word) => decoder.lookup_word(word) !== null);
  const names = [...new Set(ALL_QUANTITIES.flatMap(({ spoken }) => spoken))].filter(known);
  return `#JSGF V1.0;
grammar plain;
public <s> = [<name>] <place>* <number>+ [<unit>] [<sign>] [<name>] <place>* | <command> [<number>+ [<unit>]];
<name> = ${names.join(" | ")};
<place> = number | cylinder | main | rod | nut | a | b | side | top | middle | bottom | second | oil | thrust | axial | intake | exhaust | on | <digit>;
<digit> = one | two | three | four;
<number> = ${NUMBERS};
<unit> = thou | tenths | foot pounds | pounds | degrees | inch;
<sign> = over | under | tight | loose | proud | low;
<command> = next cylinder | scratch that make it | scratch that | wrong | confirm | say again | photo;
`;
}

/** Open the stock recogniser. */
export async function openPlain(): Promise<{ hear(pcm: Float32Array, context: Context): Parsed }> {
  const module = (await (
    createModule as unknown as (options: object) => Promise<{ Decoder: new (config: object) => StockDecoder }>
  )({
    modelBase: modelFolder(),
  })) as { Decoder: new (config: object) => StockDecoder };
  const decoder = new module.Decoder({ samprate: 16_000, loglevel: "FATAL" });
  await decoder.initialize();
  decoder.set_grammar(grammar(decoder));
  return {
    hear(pcm, context) {
      decoder.start();
      decoder.process_audio(pcm, false, true);
      decoder.stop();
      return parse(decoder.get_text(), context, DEMO_SPEC);
    },
  };
}
