// The door to the bench logger.
export { logPhoto, type PhotoInput as LogPhotoInput } from "./log-photo.ts";
export { type Heard, isForTheBook, type Logged, type LogInput, logUtterance } from "./log-utterance.ts";
export { nextPlace } from "./next-place.ts";
export { type Stamp, stampEvent } from "./stamp.ts";
