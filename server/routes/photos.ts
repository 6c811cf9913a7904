import type { z } from "zod";
import { logPhoto } from "../../extractors/bench/index.ts";
import type { PhotoRead } from "../../extractors/photo/index.ts";
import { buildParamsSchema } from "../../shared/api/builds.ts";
import { blobParamsSchema, LIMITS, photoFieldsSchema, photosAnswerSchema } from "../../shared/api/entries.ts";
import { errorSchema } from "../../shared/api/errors.ts";
import type { StagedBlob } from "../blobs/blobs.ts";
import { logEvents } from "../builds/log.ts";
import { makeStamp } from "../builds/stamp.ts";
import { loggedBefore } from "../builds/utterance.ts";
import type { Deps } from "../deps.ts";
import { expected, ServiceError } from "../errors.ts";
import { type FormRules, withForm } from "../http/multipart.ts";
import { UPLOAD_RATE } from "../http/rates.ts";
import type { App } from "../http/types.ts";
import { PICTURES, pictureOf, storePictures } from "../photos/pictures.ts";
import { toStored } from "./rows.ts";
import { whoOf } from "./who.ts";

type Fields = z.infer<typeof photoFieldsSchema>;
const rules: FormRules<Fields> = {
  fileField: "photo",
  maxFiles: LIMITS.photos,
  maxBytes: LIMITS.photo,
  fields: photoFieldsSchema,
};
const errors = { 400: errorSchema, 404: errorSchema, 409: errorSchema, 413: errorSchema, 415: errorSchema, 422: errorSchema };

export function photoRoutes(app: App, deps: Deps): void {
  app.post(
    "/api/builds/:build/photos",
    {
      config: { maxBytes: LIMITS.photo * LIMITS.photos, rateLimit: UPLOAD_RATE },
      schema: { params: buildParamsSchema, response: { 200: photosAnswerSchema, ...errors }, consumes: ["multipart/form-data"] },
    },
    async (request) => {
      const { build } = request.params;
      if ((await deps.store.head(build)) === undefined)
        throw new ServiceError("unknown_build", expected("a build of this shop", "build", build));
      return withForm(request, deps.blobs, rules, async ({ files, fields }) => ({
        events: (
          await logPhotos(
            deps,
            build,
            files.map(({ blob }) => blob),
            fields,
            whoOf(request),
          )
        ).map(toStored),
      }));
    },
  );

  for (const size of PICTURES)
    app.get(`/api/photos/:sha256/${size}`, { schema: { params: blobParamsSchema } }, async (request, reply) => {
      const picture = await pictureOf(deps, request.params.sha256, size);
      reply.header("cache-control", "private, max-age=31536000, immutable");
      return reply.type("image/webp").send(picture as never);
    });
}

async function logPhotos(
  deps: Deps,
  build: string,
  blobs: readonly StagedBlob[],
  fields: Fields,
  who: { device: string; by: string },
) {
  const first = blobs[0];
  const before = await loggedBefore(
    deps,
    build,
    fields.id,
    (event) => event.type === "photo.taken" && event.data.photo.sha256 === first?.sha256,
  );
  if (before !== undefined) return before;
  const receivedAt = new Date().toISOString();
  const reads: PhotoRead[] = [];
  // All are looked at before any is kept: one bad picture refuses the request and leaves nothing behind.
  for (const blob of blobs) reads.push(await deps.photos.read(blob.path, { shutter: fields.shutter, receivedAt }));
  for (const blob of blobs) await blob.keep();
  for (const read of reads) await storePictures(deps.derivedDir, read);
  return deps.builds.use(build, async ({ build: folded }) => {
    const stamp = await makeStamp(deps.store, build, fields, who);
    return logEvents(
      deps,
      reads.flatMap(({ facts }) => logPhoto({ photo: facts, said: fields, build: folded, stamp })),
    );
  });
}
