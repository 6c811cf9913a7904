// Why a picture is refused: stable codes and the error that carries one, with a plain sentence.

export const PHOTO_ERROR_CODES = [
  "empty_photo",
  "wrong_type",
  "too_many_bytes",
  "too_many_pixels",
  "broken_photo",
  "too_slow",
] as const;
export type PhotoErrorCode = (typeof PHOTO_ERROR_CODES)[number];

/** A picture that is refused; the message is a whole sentence a person can act on. */
export class PhotoError extends Error {
  readonly code: PhotoErrorCode;

  constructor(code: PhotoErrorCode, message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = "PhotoError";
    this.code = code;
  }
}
