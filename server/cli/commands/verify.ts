// `thoubook verify`: the report as JSON; exit 1 when anything does not hold.
import { readManifest } from "../../move/manifest.ts";
import { verifyData } from "../../move/verify.ts";
import { BAD_ARGUMENTS, DONE, FAILED, holdsShop, orSay, printJson, progressSayer, say } from "../output.ts";

type Options = { readonly data: string; readonly head?: string[]; readonly backup?: string };

/** So many digits tell one entry from another for certain enough. */
const HEAD = /^[0-9a-f]{12,64}$/;

export async function run(_positional: unknown[], options: Options): Promise<number> {
  if (!holdsShop(options.data)) return BAD_ARGUMENTS;
  const heads = (options.head ?? []).map((head) => head.toLowerCase());
  const wrong = heads.find((head) => !HEAD.test(head));
  if (wrong !== undefined) {
    say(`Expected 12 to 64 hex digits of a printed hash for --head, got ${wrong}`);
    return BAD_ARGUMENTS;
  }
  return await orSay(async () => {
    if (options.backup !== undefined) heads.push(...(await readManifest(options.backup)).heads.map((head) => head.hash));
    const onProgress = progressSayer("verify");
    const report = await verifyData(options.data, { onProgress, ...(heads.length === 0 ? {} : { heads }) });
    printJson(report);
    for (const fault of report.faults) say(`${fault.code}: ${fault.message}`);
    return report.ok ? DONE : FAILED;
  });
}
