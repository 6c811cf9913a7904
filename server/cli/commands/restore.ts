// `thoubook restore FOLDER`: the restored backup's manifest as JSON.
import { restore } from "../../move/restore.ts";
import { DONE, orSay, printJson, progressSayer, say } from "../output.ts";

type Options = { readonly data: string; readonly swap?: boolean; readonly damaged?: boolean };

export async function run(positional: unknown[], options: Options): Promise<number> {
  return await orSay(async () => {
    const { manifest, kept } = await restore(String(positional[0]), options.data, {
      swap: options.swap === true,
      damaged: options.damaged === true,
      onProgress: progressSayer("restore"),
    });
    printJson(manifest);
    if (kept !== undefined) say(`What was in ${options.data} is kept in ${kept}`);
    if (manifest.keys === "left_out")
      say("The keys of the shop's door were not in the backup: phones have to trust the shop anew.");
    return DONE;
  });
}
