// The door to photos in Node: facts, derivatives and refusals.
export { PHOTO_ERROR_CODES, PhotoError, type PhotoErrorCode } from "./errors.ts";
export {
  openPhotoReader,
  PHOTO_LIMITS,
  type PhotoInput,
  type PhotoLimits,
  type PhotoRead,
  type PhotoReader,
  readPhoto,
} from "./read-photo.ts";
export { sniffPhoto } from "./sniff.ts";
