// The door to hearing in Node.
export { modelFolder, readModelFile, servedModelFiles } from "./model-files.ts";
export { openHearer } from "./open-hearer.ts";
