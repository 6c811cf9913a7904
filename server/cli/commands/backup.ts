// `thoubook backup FOLDER`: the manifest as JSON; exit 1 when the shop was not sound, though the backup was made.
import { backup, backupInto } from "../../move/backup.ts";
import { BAD_ARGUMENTS, DONE, FAILED, holdsShop, orSay, printJson, progressSayer, say } from "../output.ts";

type Options = { readonly data: string; readonly add?: boolean; readonly keys: boolean };

export async function run(positional: unknown[], options: Options): Promise<number> {
  if (!holdsShop(options.data)) return BAD_ARGUMENTS;
  return await orSay(async () => {
    const make = options.add === true ? backupInto : backup;
    const to = String(positional[0]);
    const manifest = await make(options.data, to, { withoutKeys: !options.keys, onProgress: progressSayer("backup") });
    printJson(manifest);
    for (const fault of manifest.faults) say(`${fault.code}: ${fault.message}`);
    if (manifest.faults.length > 0)
      say(`The backup was made and holds all that could be copied, with ${manifest.faults.length} faults.`);
    if (manifest.keys === "kept")
      say(
        "It holds the private keys of the shop's door: who has them can pass for this shop. Keep it as safe as the shop's machine.",
      );
    if (manifest.keys === "left_out")
      say("The private keys of the shop's door are not in it: after a restore every phone has to trust the shop anew.");
    return manifest.faults.length > 0 ? FAILED : DONE;
  });
}
