// Where the acoustic network and its runtime lie, for Node's own ear and for what a browser must be able to fetch.
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";

/** The project's root, from the source or from the build. */
const ROOT = path.resolve(
  import.meta.dirname,
  import.meta.dirname.includes(`${path.sep}dist${path.sep}`) ? "../../../.." : "../../..",
);

const NETWORK = path.join(ROOT, "extractors/hearing/model/phones.onnx");

/** The runtime's files that a browser loads by address; the first is its loader. */
const RUNTIME = ["ort-wasm-simd-threaded.mjs", "ort-wasm-simd-threaded.wasm"];

/** Read the acoustic network. */
export const readNetwork = (): Promise<Uint8Array> => readFile(NETWORK);

/** Files that a browser's ear fetches, by their name below `/model/`. */
export function servedFiles(): ReadonlyMap<string, string> {
  const runtime = path.dirname(createRequire(import.meta.url).resolve("onnxruntime-web/ort-wasm-simd-threaded.wasm"));
  return new Map([["phones.onnx", NETWORK], ...RUNTIME.map((name) => [name, path.join(runtime, name)] as const)]);
}
