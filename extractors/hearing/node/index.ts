// The door to hearing in Node.
export { MODEL_FILES, modelFolder, servedModelFiles } from "./model-files.ts";
export { openHearer } from "./open-hearer.ts";
