// Before the tests: finds a Chromium, or installs Debian's when root, or says in one line what to install and fails.
// Helpers that some tests use (sound data, certificate tools, video) are installed beside it when that is possible.
import { execFileSync } from "node:child_process";
import { findChromium } from "../support/chromium.ts";

const HELPERS = ["pocketsphinx-testdata", "asterisk-core-sounds-en-wav", "libnss3-tools", "ffmpeg", "poppler-utils"];

const has = (command: string): boolean => {
  try {
    execFileSync("sh", ["-c", `command -v ${command}`], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
};

const apt = (packages: readonly string[]): boolean => {
  try {
    execFileSync("apt-get", ["install", "-y", "--no-install-recommends", ...packages], {
      stdio: ["ignore", "ignore", "inherit"],
    });
    return true;
  } catch {
    return false;
  }
};

const canInstall = process.getuid?.() === 0 && has("apt-get");
const installed = (name: string): boolean => {
  try {
    execFileSync("dpkg", ["-s", name], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
};

const wanted = canInstall ? HELPERS.filter((name) => !installed(name)) : [];
const browser = findChromium();
if (canInstall && (browser === undefined || wanted.length > 0)) {
  try {
    execFileSync("apt-get", ["update"], { stdio: ["ignore", "ignore", "inherit"] });
  } catch {
    process.stderr.write("apt-get update failed; trying with the lists that are there\n");
  }
  if (browser === undefined) apt(["chromium"]);
  // One by one: a helper that a release lacks must not keep the others out.
  for (const name of wanted)
    if (!apt([name])) process.stderr.write(`${name} could not be installed; tests that need it say so\n`);
}

if (findChromium() === undefined) {
  process.stderr.write("Expected a Chromium for the browser tests, got none: install chromium, or set CHROMIUM to its path.\n");
  process.exit(1);
}
