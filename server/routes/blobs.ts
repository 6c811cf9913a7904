// Blobs by their hash: sent as raw bytes, asked for with HEAD, and clips played with byte ranges. Photo originals stay inside.

import type { Readable } from "node:stream";
import type { FastifyReply } from "fastify";
import { blobAnswerSchema, blobParamsSchema, LIMITS } from "../../shared/api/entries.ts";
import { errorSchema } from "../../shared/api/errors.ts";
import { whoOf } from "../builds/who.ts";
import type { Deps } from "../deps.ts";
import { expected, ServiceError } from "../errors.ts";
import { parseRange } from "../http/range.ts";
import { UPLOAD_RATE } from "../http/rates.ts";
import type { App } from "../http/types.ts";

const errors = { 400: errorSchema, 404: errorSchema, 413: errorSchema, 415: errorSchema, 416: errorSchema };

export function blobRoutes(app: App, deps: Deps): void {
  // The stream is handed over as it comes; its length is counted while it is written.
  app.addContentTypeParser("application/octet-stream", (_request, payload, done) => done(null, payload));

  app.put(
    "/api/blobs/:sha256",
    {
      config: { maxBytes: LIMITS.photo, rateLimit: UPLOAD_RATE },
      schema: {
        params: blobParamsSchema,
        response: { 201: blobAnswerSchema, ...errors },
        consumes: ["application/octet-stream"],
      },
    },
    async (request, reply) => {
      const { sha256 } = request.params;
      const body = request.body as Readable | undefined;
      if (request.headers["content-type"] !== "application/octet-stream" || body === undefined)
        throw new ServiceError("wrong_type", expected("application/octet-stream", "the body", "another content type"));
      const staged = await deps.blobs.stage(body, { max: LIMITS.photo, what: "the blob", sha256 });
      try {
        whoOf(deps, request).stillIn();
        await staged.keep();
      } finally {
        await staged.drop();
      }
      return reply.code(201).send({ sha256, bytes: staged.bytes });
    },
  );

  app.head("/api/blobs/:sha256", { schema: { params: blobParamsSchema } }, async (request, reply) => {
    // Whoever asks may drop its own copy then: a damaged file counts for none, and is whole again when it is sent again.
    return reply.code((await deps.blobs.isSound(request.params.sha256)) ? 200 : 404).send();
  });

  app.get("/api/blobs/:sha256", { exposeHeadRoute: false, schema: { params: blobParamsSchema } }, async (request, reply) =>
    sendClip(deps, request.params.sha256, request.headers.range, reply),
  );
}

/** @throws ServiceError `unknown_blob` for anything but a clip that an event rests on; `bad_range` */
async function sendClip(deps: Deps, sha256: string, range: string | undefined, reply: FastifyReply): Promise<FastifyReply> {
  const ref = await deps.store.blobRef(sha256);
  const size = ref?.kind === "clip" ? await deps.blobs.size(sha256) : undefined;
  if (size === undefined) throw new ServiceError("unknown_blob", expected("a clip of this shop", "sha256", sha256));
  await deps.blobs.assertSound(sha256);
  reply
    .type("audio/wav")
    .header("accept-ranges", "bytes")
    .header("content-disposition", `inline; filename="${sha256}.wav"`)
    .header("cache-control", "private, max-age=31536000, immutable");
  const part = parseRange(range, size);
  if (part === undefined) return reply.header("content-length", size).send(deps.blobs.read(sha256));
  return reply
    .code(206)
    .header("content-range", `bytes ${part.start}-${part.end}/${size}`)
    .header("content-length", part.end - part.start + 1)
    .send(deps.blobs.read(sha256, part));
}
