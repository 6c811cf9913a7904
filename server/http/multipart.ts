// Forms with files: each file goes to a temporary blob as it comes, fields are kept as text, limits are checked after each file.
import multipart from "@fastify/multipart";
import type { FastifyRequest } from "fastify";
import { z } from "zod";
import { LIMITS } from "../../shared/api/entries.ts";
import type { Blobs, StagedBlob } from "../blobs/blobs.ts";
import { expected, ServiceError } from "../errors.ts";
import type { App } from "./types.ts";

export interface FilePart {
  /** The form field it came in. A file's own name is never used for anything. */
  readonly field: string;
  readonly blob: StagedBlob;
}

export interface Form<F> {
  readonly files: readonly FilePart[];
  readonly fields: F;
}

export interface FormRules<F> {
  readonly fileField: "clip" | "photo";
  readonly maxFiles: number;
  readonly maxBytes: number;
  readonly fields: z.ZodType<F>;
}

const LONGEST_BOUNDARY = 70;

export const blobsOfForm = (files: readonly FilePart[]): StagedBlob[] => files.map(({ blob }) => blob);

export async function acceptForms(app: App): Promise<void> {
  await app.register(multipart, {
    limits: { fieldNameSize: 40, fieldSize: 4000, fields: 20, files: LIMITS.photos, headerPairs: 50, parts: LIMITS.photos + 20 },
  });
}

/**
 * Read a form, hand it to `work`, and drop every file that was not kept, whatever happened.
 * @throws ServiceError `wrong_type`, `no_file`, `too_large`, `too_many_files`, `malformed_upload`, `invalid_request`
 */
export async function withForm<F, T>(
  request: FastifyRequest,
  blobs: Blobs,
  rules: FormRules<F>,
  work: (form: Form<F>) => Promise<T>,
): Promise<T> {
  if (!request.isMultipart())
    throw new ServiceError("wrong_type", expected("multipart/form-data", "the body", "another content type"));
  checkBoundary(request.headers["content-type"] ?? "");
  const files: FilePart[] = [];
  try {
    const raw = await readParts(request, blobs, rules, files);
    if (files.length === 0) throw new ServiceError("no_file", expected("a file", `the form's field ${rules.fileField}`, "none"));
    return await work({ files, fields: checkFields(rules.fields, raw) });
  } finally {
    for (const { blob } of files) await blob.drop();
  }
}

/** A boundary has at most 70 characters (RFC 2046 section 5.1.1); the parser fails on much longer ones. */
function checkBoundary(type: string): void {
  const boundary = /boundary=(?:"([^"]*)"|([^;\s]*))/i.exec(type);
  const { length } = boundary?.[1] ?? boundary?.[2] ?? "";
  if (length < 1 || length > LONGEST_BOUNDARY)
    throw new ServiceError(
      "malformed_upload",
      expected(`1 to ${LONGEST_BOUNDARY} characters`, "the form's boundary", `${length}`),
    );
}

async function readParts<F>(
  request: FastifyRequest,
  blobs: Blobs,
  rules: FormRules<F>,
  files: FilePart[],
): Promise<Record<string, string>> {
  const fields: Record<string, string> = {};
  try {
    // One byte more than is taken, so that a file of just the largest size is told from a cut one.
    for await (const part of request.parts({ limits: { fileSize: rules.maxBytes + 1, files: rules.maxFiles } })) {
      if (part.type === "field") {
        // An empty field of a plain form means that it was left out.
        if (typeof part.value === "string" && part.value !== "") fields[part.fieldname] = part.value;
        continue;
      }
      if (part.fieldname !== rules.fileField) {
        part.file.resume();
        throw new ServiceError(
          "invalid_request",
          expected(`the field ${rules.fileField}`, "a file of the form", "another field"),
        );
      }
      const blob = await blobs.stage(part.file, { max: rules.maxBytes, what: `the ${rules.fileField}` });
      files.push({ field: part.fieldname, blob });
      if (part.file.truncated)
        throw new ServiceError("too_large", expected(`at most ${rules.maxBytes} bytes`, `the ${rules.fileField}`, "more"));
    }
  } catch (error) {
    throw readable(error);
  }
  return fields;
}

/** The form parser reports a body that stops short or is no form by bare errors without a code. */
function readable(error: unknown): unknown {
  const code = (error as { code?: unknown }).code;
  if (error instanceof ServiceError || (typeof code === "string" && code.startsWith("FST_"))) return error;
  if (error instanceof Error && /unexpected end of|malformed|multipart|boundary|premature|aborted/i.test(error.message))
    return new ServiceError("malformed_upload", expected("a whole form", "the body", "a broken or unfinished one"));
  return error;
}

function checkFields<F>(schema: z.ZodType<F>, raw: Record<string, string>): F {
  const result = schema.safeParse(raw);
  if (result.success) return result.data;
  const issue = result.error.issues[0];
  const name = issue?.path.join(".") || "a field";
  throw new ServiceError(
    "invalid_request",
    `Expected a valid value for the form's ${name}: ${z.prettifyError(result.error).split("\n")[0]?.replace(/^✖ /, "")}`,
  );
}
