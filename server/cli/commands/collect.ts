// `thoubook collect`: orphaned clips and photos as JSON; with --put-aside N they are moved into quarantine.
import { openShopData } from "../../data-dir.ts";
import { collect } from "../../move/collect.ts";
import { BAD_ARGUMENTS, DONE, holdsShop, orSay, printJson, say } from "../output.ts";

export async function run(_positional: unknown[], options: { data: string; putAside?: string }): Promise<number> {
  if (!holdsShop(options.data)) return BAD_ARGUMENTS;
  if (options.putAside !== undefined && !/^\d+$/.test(options.putAside)) {
    say(`Expected the number of orphans for --put-aside, got ${options.putAside}`);
    return BAD_ARGUMENTS;
  }
  return await orSay(async () => {
    const data = await openShopData(options.data);
    try {
      const done = await collect(data, options.putAside === undefined ? {} : { putAside: Number(options.putAside) });
      printJson(done);
      if (done.orphans > done.putAside)
        say(`${done.orphans} clips and photos are named by no entry: --put-aside ${done.orphans} moves them into quarantine`);
      return DONE;
    } finally {
      await data.close();
    }
  });
}
