// Where the acoustic model lies in the installed package, and which of its files a browser must be able to fetch.
import { createRequire } from "node:module";
import path from "node:path";

/** Files of the acoustic model that must be served; `feature_transform` must answer 404, never a page. */
export const MODEL_FILES = ["feat_params.json", "mdef", "means", "variances", "sendump", "transition_matrices"] as const;

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
