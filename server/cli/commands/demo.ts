// `thoubook demo`: make the demo build in a data folder without serving it; the summary goes to standard output as JSON.
import { progressSayer, sayDemo } from "../../demo/say.ts";
import { makeLogger } from "../../http/log.ts";
import { openShop } from "../../open-shop.ts";
import { openSenses } from "../../senses.ts";
import { DONE, FAILED, orSay, printJson, say } from "../output.ts";

export async function run(_positional: unknown[], options: { data: string }): Promise<number> {
  return await orSay(async () => {
    const shop = await openShop({ dataDir: options.data, logger: makeLogger("warn"), senses: openSenses() });
    try {
      const state = await shop.demo.start(progressSayer(say));
      say(sayDemo(state));
      if (state.state !== "there") return FAILED;
      printJson(state.summary ?? { build: state.build });
      return DONE;
    } finally {
      await shop.close();
    }
  });
}
