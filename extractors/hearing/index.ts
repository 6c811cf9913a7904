// The door to hearing for any place: no Node API behind it. Node's ear is in node/index.ts, the browser's in browser-worker.ts.

export { resample } from "./audio/resample.ts";
export { readWav, type Sound, writeWav } from "./audio/wav.ts";
export { levelOf } from "./endpoint.ts";
export { HearingError, type HearingErrorCode } from "./errors.ts";
export type { Heard, HeardVerdict, Hearer, HearOptions } from "./types.ts";
export { isWhole, understand } from "./understand.ts";
