// `thoubook backup FOLDER`: the manifest as JSON.
import { backup } from "../../move/backup.ts";
import { BAD_ARGUMENTS, DONE, holdsShop, orSay, printJson } from "../output.ts";

export async function run(positional: unknown[], options: { data: string }): Promise<number> {
  if (!holdsShop(options.data)) return BAD_ARGUMENTS;
  return await orSay(async () => {
    printJson(await backup(options.data, String(positional[0])));
    return DONE;
  });
}
