// Where the system's Chromium is, and the switches it runs with in tests.
import { accessSync, constants } from "node:fs";

const PLACES = [
  process.env.CHROMIUM,
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
];

/** The first Chromium that can be run, or undefined. */
export function findChromium(): string | undefined {
  return PLACES.find((place): place is string => {
    if (place === undefined || place === "") return false;
    try {
      accessSync(place, constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });
}

/** Quiet, sandbox-free (tests run as root in CI), and without the background calls that a closed network refuses. */
export const CHROMIUM_ARGS: readonly string[] = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
