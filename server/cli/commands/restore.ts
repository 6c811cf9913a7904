// `thoubook restore FOLDER`: the restored backup's manifest as JSON.
import { restore } from "../../move/backup.ts";
import { DONE, orSay, printJson } from "../output.ts";

export async function run(positional: unknown[], options: { data: string }): Promise<number> {
  return await orSay(async () => {
    printJson(await restore(String(positional[0]), options.data));
    return DONE;
  });
}
