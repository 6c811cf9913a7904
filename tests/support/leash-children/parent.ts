// For the test of the leash: starts a child that never ends by itself, tells its number, and waits to be killed.
import { startLeashed } from "../leashed.ts";

const child = startLeashed("tests/support/leash-children/stays.ts");
child.stdout?.once("data", () => process.stdout.write(`${child.pid}\n`));
