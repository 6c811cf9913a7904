// What can be wrong with a clip: a stable code and one plain sentence "Expected X for Y, got Z".

export const HEARING_ERROR_CODES = [
  "clip_empty",
  "clip_not_wav",
  "clip_truncated",
  "clip_encoding_unknown",
  "clip_rate_unusable",
  "clip_channels_unusable",
  "clip_too_long",
  "hearer_failed",
] as const;
export type HearingErrorCode = (typeof HEARING_ERROR_CODES)[number];

/** An error a person can act on; `code` never changes, the sentence may. */
export class HearingError extends Error {
  readonly code: HearingErrorCode;
  constructor(code: HearingErrorCode, message: string) {
    super(message);
    this.name = "HearingError";
    this.code = code;
  }
}
