// `thoubook verify`: the report as JSON; exit 1 when anything does not hold.
import { verifyData } from "../../move/verify.ts";
import { BAD_ARGUMENTS, DONE, FAILED, holdsShop, printJson, say } from "../output.ts";

export async function run(_positional: unknown[], options: { data: string }): Promise<number> {
  if (!holdsShop(options.data)) return BAD_ARGUMENTS;
  const report = await verifyData(options.data);
  printJson(report);
  for (const fault of report.faults) say(`${fault.code}: ${fault.message}`);
  return report.ok ? DONE : FAILED;
}
