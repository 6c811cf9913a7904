// Where the acoustic model lies in the installed package, and which of its files a browser must be able to fetch.
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import { MODEL_FILES, type ModelFile } from "../engine/model.ts";

/** The installed recogniser's folder of models, with a trailing slash. */
export function modelFolder(): string {
  const entry = createRequire(import.meta.url).resolve("soundswallower/jsonly");
  return `${path.resolve(path.dirname(entry), "..", "model")}/`;
}

/** Absolute paths of the model files and the URL path each is to be served at, below `/ear/`. */
export function servedModelFiles(): readonly { readonly url: string; readonly file: string }[] {
  const folder = modelFolder();
  return MODEL_FILES.map((name) => ({ url: `/ear/model/en-us/${name}`, file: path.join(folder, "en-us", name) }));
}

/** Read a file of the installed model. */
export const readModelFile = (name: ModelFile): Promise<Uint8Array> => readFile(path.join(modelFolder(), "en-us", name));
