// `thoubook compute ID name=value...` and `compute --list`: one computation worked out, with its formula and source.
import { COMPUTATIONS } from "../../../shared/compute/registry.ts";
import { compute } from "../../../shared/compute/request.ts";

interface Options {
  readonly list?: boolean;
}

function listed(): string {
  const rows = COMPUTATIONS.map(({ id, title, inputs, unit, formula, source }) => ({
    id,
    title,
    inputs: Object.entries(inputs).map(([name, input]) => ({
      name,
      ...(input.kind === "text" ? {} : { unit: input.unit, ...(input.domain === undefined ? {} : { domain: input.domain }) }),
      required: input.optional !== true,
      list: input.kind === "list",
      about: input.about,
      ...(input.kind === "text" && input.choices !== undefined ? { choices: input.choices } : {}),
    })),
    unit,
    formula,
    source,
  }));
  return rows.map((row) => JSON.stringify(row)).join("\n");
}

/** Exit code: 0 worked out or listed, 2 for arguments it cannot use (a code and a sentence on standard error). */
export async function run(positional: unknown[], options: Options): Promise<number> {
  const [id, pairs] = positional as [string | undefined, string[] | undefined];
  if (options.list === true) {
    process.stdout.write(`${listed()}\n`);
    return 0;
  }
  if (id === undefined) {
    process.stderr.write('missing_id: Expected the id of a computation for ID, got none; "thoubook compute --list" lists them\n');
    return 2;
  }
  const result = compute(id, pairs ?? []);
  if (!result.ok) {
    process.stderr.write(`${result.error.code}: ${result.error.say}\n`);
    return 2;
  }
  process.stdout.write(`${JSON.stringify(result.computed)}\n`);
  return 0;
}
