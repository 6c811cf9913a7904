// Sound in: heard, read and logged with its original bytes, or only heard.
import { readFile } from "node:fs/promises";
import { z } from "zod";
import { readWav } from "../../extractors/hearing/audio/wav.ts";
import { buildParamsSchema } from "../../shared/api/builds.ts";
import { clipAnswerSchema, clipFieldsSchema, hearAnswerSchema, LIMITS } from "../../shared/api/entries.ts";
import { errorSchema } from "../../shared/api/errors.ts";
import { DEMO_SPEC } from "../../shared/spec/demo-engine.ts";
import { logWords } from "../builds/utterance.ts";
import { whoOf } from "../builds/who.ts";
import type { Deps } from "../deps.ts";
import { expected, ServiceError } from "../errors.ts";
import { type Form, type FormRules, withForm } from "../http/multipart.ts";
import { UPLOAD_RATE } from "../http/rates.ts";
import type { App } from "../http/types.ts";
import { answerFor } from "./answer.ts";

const errors = { 400: errorSchema, 404: errorSchema, 409: errorSchema, 413: errorSchema, 415: errorSchema, 422: errorSchema };
const config = { maxBytes: LIMITS.clip + 64 * 1024, rateLimit: UPLOAD_RATE };
const shape = { fileField: "clip", maxFiles: 1, maxBytes: LIMITS.clip } as const;
const rules: FormRules<z.infer<typeof clipFieldsSchema>> = { ...shape, fields: clipFieldsSchema };
const hearFieldsSchema = z.strictObject({ build: z.uuid().optional(), device: z.string().min(1).max(60).optional() });
const hearRules: FormRules<z.infer<typeof hearFieldsSchema>> = { ...shape, fields: hearFieldsSchema };

export function clipRoutes(app: App, deps: Deps): void {
  app.post(
    "/api/builds/:build/clips",
    {
      config,
      schema: { params: buildParamsSchema, response: { 200: clipAnswerSchema, ...errors }, consumes: ["multipart/form-data"] },
    },
    async (request) => {
      const { build } = request.params;
      await known(deps, build);
      return withForm(request, deps.blobs, rules, async (form) => {
        const { clip, wav, seconds } = await checkedClip(form);
        const who = whoOf(deps, request);
        const logged = await logWords(deps, { ...form.fields, build }, who, {
          same: (event) => event.type === "utterance.heard" && event.data.clip === clip.sha256,
          understand: async (context, spec) => {
            const heard = await deps.hearing.hear(wav, context, spec);
            // Kept only now: a clip that could not be heard leaves nothing behind.
            who.stillIn();
            await clip.keep();
            return { parsed: heard.parsed, heard: { by: "voice", clip: clip.sha256, seconds: heard.seconds } };
          },
        });
        const answer = answerFor(logged);
        return { clip: clip.sha256, heard: answer.parsed.text, seconds, ...answer };
      });
    },
  );

  app.post(
    "/api/hear",
    { config, schema: { response: { 200: hearAnswerSchema, ...errors }, consumes: ["multipart/form-data"] } },
    async (request) =>
      withForm(request, deps.blobs, hearRules, async (form) => {
        const { wav } = await checkedClip(form);
        const spec =
          form.fields.build === undefined ? DEMO_SPEC : await deps.builds.read(form.fields.build, ({ build }) => build.spec);
        return await deps.hearing.hear(wav, {}, spec);
      }),
  );
}

async function known(deps: Deps, build: string): Promise<void> {
  if ((await deps.store.head(build)) === undefined)
    throw new ServiceError("unknown_build", expected("a build of this shop", "build", build));
}

/** @throws HearingError for what is no whole WAV file with sound in it */
async function checkedClip(form: Form<unknown>) {
  const clip = form.files[0]?.blob;
  if (clip === undefined) throw new ServiceError("no_file", expected("a file", "the form's field clip", "none"));
  const wav = await readFile(clip.path);
  const { pcm, rate } = readWav(wav);
  const seconds = Math.round((pcm.length / rate) * 1000) / 1000;
  if (seconds > LIMITS.clipSeconds)
    throw new ServiceError(
      "clip_too_long",
      expected(`at most ${LIMITS.clipSeconds} seconds`, "the clip", `${Math.round(seconds)}`),
    );
  return { clip, wav, seconds };
}
