// `npm run published`: every check of a computation beside its source, as a table on standard output.
import { table } from "./table.ts";

process.stdout.write(`${table()}\n`);
