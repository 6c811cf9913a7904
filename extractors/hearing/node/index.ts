// The door to hearing in Node.
export { readNetwork, servedFiles } from "./model-files.ts";
export { openHearer } from "./open-hearer.ts";
