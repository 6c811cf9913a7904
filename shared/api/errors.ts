// Every error code the service answers with, with its HTTP status: the one list for server, screen and outbox.
import { z } from "zod";

export const ERROR_STATUS = {
  invalid_request: 400,
  malformed_json: 400,
  malformed_upload: 400,
  invalid_event: 400,
  hash_mismatch: 400,
  bad_range: 416,
  not_paired: 401,
  bad_pairing_code: 401,
  forbidden_role: 403,
  forbidden_host: 403,
  forbidden_origin: 403,
  not_found: 404,
  unknown_build: 404,
  unknown_blob: 404,
  unknown_device: 404,
  unknown_link: 404,
  method_not_allowed: 405,
  id_conflict: 409,
  build_exists: 409,
  name_taken: 409,
  too_large: 413,
  too_many_files: 413,
  wrong_type: 415,
  no_file: 422,
  clip_empty: 422,
  clip_not_wav: 415,
  clip_truncated: 422,
  clip_encoding_unknown: 415,
  clip_rate_unusable: 422,
  clip_channels_unusable: 422,
  clip_too_long: 422,
  hearer_failed: 503,
  empty_photo: 422,
  too_many_bytes: 413,
  too_many_pixels: 422,
  broken_photo: 422,
  too_slow: 422,
  blob_missing: 422,
  wrong_build: 422,
  wrong_unit: 422,
  wrong_digits: 422,
  no_number: 422,
  no_time: 422,
  out_of_range: 422,
  too_deep: 422,
  no_sense: 422,
  too_many_requests: 429,
  unreadable_build: 422,
  internal: 500,
  not_ready: 503,
  out_of_space: 507,
  /** The disk or the folder refuses, or is not the one that was opened: try again when the owner has seen to it. */
  storage_failed: 503,
  /** An entry is not what its hash says: nothing is added to its log until the owner has seen to it. */
  damaged_log: 500,
  /** A clip or photo is not what its name says: sent again under its name it is whole again. */
  damaged_blob: 500,
} as const;
export type ErrorCode = keyof typeof ERROR_STATUS;
export const ERROR_CODES = Object.keys(ERROR_STATUS) as [ErrorCode, ...ErrorCode[]];

/** Body of every answer that is not a success: a stable code and one plain sentence. */
export const errorSchema = z.strictObject({ code: z.enum(ERROR_CODES), message: z.string() });
export type ApiError = z.infer<typeof errorSchema>;
