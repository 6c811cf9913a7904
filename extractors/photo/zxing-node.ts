// Loads the card reader's wasm from the installed package, once a process.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { prepareCardReader } from "./card-reader.ts";

let ready = false;

/** Makes the card reader usable in Node without any network. */
export function prepareNodeCardReader(): void {
  if (ready) return;
  const bytes = readFileSync(createRequire(import.meta.url).resolve("zxing-wasm/reader/zxing_reader.wasm"));
  prepareCardReader(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer);
  ready = true;
}
