// POST typed words: read on the server and logged.
import { buildParamsSchema } from "../../shared/api/builds.ts";
import { utteranceAnswerSchema, utteranceSchema } from "../../shared/api/entries.ts";
import { errorSchema } from "../../shared/api/errors.ts";
import { logWords } from "../builds/utterance.ts";
import { whoOf } from "../builds/who.ts";
import type { Deps } from "../deps.ts";
import type { App } from "../http/types.ts";
import { answerFor } from "./answer.ts";

export function utteranceRoutes(app: App, deps: Deps): void {
  app.post(
    "/api/builds/:build/utterances",
    {
      schema: {
        params: buildParamsSchema,
        body: utteranceSchema,
        response: { 200: utteranceAnswerSchema, 400: errorSchema, 404: errorSchema, 409: errorSchema },
      },
    },
    async (request) => {
      const { build } = request.params;
      const { text, ...said } = request.body;
      const logged = await logWords(deps, { ...said, build }, whoOf(deps, request), {
        same: (event) => event.type === "utterance.heard" && event.data.by === "typed" && event.data.text === text,
        understand: (context, spec) => ({ parsed: deps.parse(text, context, spec), heard: { by: "typed" } }),
      });
      return answerFor(logged);
    },
  );
}
