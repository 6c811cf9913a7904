// The door to the fold.
export * from "./build.ts";
export { conditionFor } from "./condition.ts";
export { draftOf } from "./draft.ts";
export { contextOf, focusOf } from "./focus.ts";
export { PARTS, type PartId } from "./parts.ts";
