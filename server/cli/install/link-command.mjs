// After the compile: makes the command runnable and puts it where `npx thoubook` finds it at once.
// A "bin" entry in package.json would do the opposite: npx then installs the project into its cache before each first run.
import { chmodSync, mkdirSync, rmSync, symlinkSync } from "node:fs";

const command = "dist/server/cli/main.js";
chmodSync(command, 0o755);
mkdirSync("node_modules/.bin", { recursive: true });
rmSync("node_modules/.bin/thoubook", { force: true });
symlinkSync(`../../${command}`, "node_modules/.bin/thoubook");
