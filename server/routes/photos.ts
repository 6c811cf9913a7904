// Pictures in, filed under their place and step; smaller copies out. The originals are kept and never served.
import { buildParamsSchema } from "../../shared/api/builds.ts";
import { blobParamsSchema, LIMITS, photoFieldsSchema, photosAnswerSchema } from "../../shared/api/entries.ts";
import { errorSchema } from "../../shared/api/errors.ts";
import { logPhotos, type PhotoFields } from "../builds/photos.ts";
import { whoOf } from "../builds/who.ts";
import type { Deps } from "../deps.ts";
import { expected, ServiceError } from "../errors.ts";
import { blobsOfForm, type FormRules, withForm } from "../http/multipart.ts";
import { UPLOAD_RATE } from "../http/rates.ts";
import type { App } from "../http/types.ts";
import { PICTURES, pictureOf } from "../photos/pictures.ts";
import { toStored } from "./rows.ts";

export const PHOTO_RULES: FormRules<PhotoFields> = {
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
      return withForm(request, deps.blobs, PHOTO_RULES, async ({ files, fields }) => ({
        events: (await logPhotos(deps, build, blobsOfForm(files), fields, whoOf(deps, request))).map(toStored),
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
