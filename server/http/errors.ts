// Turns whatever was thrown into one shape: the right status, a stable code, one plain sentence.
import type { FastifyError, FastifyReply, FastifyRequest } from "fastify";
import { hasZodFastifySchemaValidationErrors } from "fastify-type-provider-zod";
import { type ApiError, ERROR_STATUS, type ErrorCode } from "../../shared/api/errors.ts";
import { expected, ServiceError } from "../errors.ts";
import { storageRefusal } from "../store/storage.ts";
import type { App } from "./types.ts";
import { sayIssue } from "./zod-issue.ts";

/** Fastify's and its plugins' codes, with ours and the sentence for them. */
const FOREIGN: Readonly<Record<string, readonly [ErrorCode, string]>> = {
  FST_ERR_CTP_INVALID_MEDIA_TYPE: ["wrong_type", "Expected a content type this address takes, got another"],
  FST_ERR_CTP_INVALID_JSON_BODY: ["malformed_json", "Expected JSON for the body, got text that is not JSON"],
  FST_ERR_CTP_EMPTY_JSON_BODY: ["malformed_json", "Expected JSON for the body, got nothing"],
  FST_ERR_CTP_BODY_TOO_LARGE: ["too_large", "Expected a smaller body, got more bytes than this address takes"],
  FST_ERR_CTP_INVALID_CONTENT_LENGTH: [
    "malformed_upload",
    "Expected as many bytes as announced for the body, got another number",
  ],
  FST_REQ_FILE_TOO_LARGE: ["too_large", "Expected a smaller file, got more bytes than this address takes"],
  FST_FILES_LIMIT: ["too_many_files", "Expected fewer files in one request, got too many"],
  FST_PARTS_LIMIT: ["too_many_files", "Expected fewer parts in one request, got too many"],
  FST_FIELDS_LIMIT: ["too_many_files", "Expected fewer fields in one request, got too many"],
  FST_INVALID_MULTIPART_CONTENT_TYPE: ["wrong_type", "Expected multipart/form-data for the body, got another type"],
  FST_PROTO_VIOLATION: ["malformed_upload", "Expected plain names for the form's fields, got a forbidden one"],
  FST_ERR_BAD_URL: ["not_found", "Expected an address of this service, got one that cannot be decoded"],
  FST_ERR_MAX_PARAM_LENGTH: ["not_found", "Expected an address of this service, got a longer one"],
  ECONNRESET: ["malformed_upload", "Expected the whole body, got a part of it"],
};

/** What an address's own parameter stands for, when it does not even look right. */
const UNKNOWN: readonly (readonly [string, ErrorCode, string])[] = [
  ["/build", "unknown_build", "Expected a build of this shop for build, got an id that none has"],
  ["/sha256", "unknown_blob", "Expected 64 hex digits for sha256, got other text"],
];

/** The answer for anything thrown while a request was served. */
export function toAnswer(error: FastifyError, request: FastifyRequest): ApiError & { status: number } {
  const known = error instanceof ServiceError ? error : storageRefusal(error);
  if (known !== undefined) return { status: known.statusCode, code: known.code, message: known.message };
  // The readers of clips and photos refuse with codes of the same list.
  if (isErrorCode(error.code)) return { status: ERROR_STATUS[error.code], code: error.code, message: error.message };
  if (hasZodFastifySchemaValidationErrors(error)) return fromValidation(error, request);
  const foreign = FOREIGN[error.code];
  if (foreign !== undefined) return { status: ERROR_STATUS[foreign[0]], code: foreign[0], message: foreign[1] };
  const status = error.statusCode ?? 500;
  if (status === 429) return { status, code: "too_many_requests", message: error.message };
  // Fastify reports a broken JSON body as a bare syntax error with this status.
  if (status === 400)
    return { status, code: "invalid_request", message: "Expected a well-formed request, got one that cannot be read" };
  return {
    status: 500,
    code: "internal",
    message: "Expected to answer this request, got a fault of the service: its log has the details",
  };
}

function fromValidation(error: FastifyError, request: FastifyRequest): ApiError & { status: number } {
  const first = error.validation?.[0];
  const path = first?.instancePath ?? "/";
  if (error.validationContext === "params") {
    const row = UNKNOWN.find(([prefix]) => path.startsWith(prefix));
    const [code, message]: readonly [ErrorCode, string] = row
      ? [row[1], row[2]]
      : ["not_found", "Expected an address of this service, got another"];
    return { status: ERROR_STATUS[code], code, message };
  }
  const code: ErrorCode = error.validationContext === "body" && path.startsWith("/events/") ? "invalid_event" : "invalid_request";
  const data = error.validationContext === "body" ? request.body : request.query;
  return { status: ERROR_STATUS[code], code, message: sayIssue(first, data, error.validationContext ?? "the request") };
}

const isErrorCode = (code: unknown): code is ErrorCode => typeof code === "string" && Object.hasOwn(ERROR_STATUS, code);

/** Install the error and not-found handlers. Refusals are logged by their code alone: their sentence may quote what was said. */
export function handleErrors(app: App): void {
  app.setErrorHandler((error: FastifyError, request, reply) => {
    const { status, ...answer } = toAnswer(error, request);
    if (status >= 500) request.log.error({ err: error, code: answer.code }, "request failed");
    else request.log.info({ code: answer.code }, "request refused");
    return sendError(reply, status, answer);
  });
}

export function sendError(reply: FastifyReply, status: number, answer: ApiError): FastifyReply {
  // The rest of a refused body is not waited for.
  if (status === 413) reply.header("connection", "close");
  return reply.code(status).type("application/json; charset=utf-8").send(JSON.stringify(answer));
}

export function notFound(what: string): ServiceError {
  return new ServiceError("not_found", expected("an address of this service", "the path", what));
}
