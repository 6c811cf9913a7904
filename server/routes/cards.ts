// The tag cards of a build's engine as a PDF to print.
import { z } from "zod";
import { PAPERS, type Paper } from "../../extractors/photo/card-sheet.ts";
import { buildParamsSchema } from "../../shared/api/builds.ts";
import { cardsOf } from "../../shared/photo/card-set.ts";
import { cardPdf } from "../cards/card-pdf.ts";
import type { Deps } from "../deps.ts";
import type { App } from "../http/types.ts";

const query = z.strictObject({ paper: z.enum(Object.keys(PAPERS) as [Paper, ...Paper[]]).default("a4") });

export function cardRoutes(app: App, deps: Deps): void {
  app.get("/api/builds/:build/cards", { schema: { params: buildParamsSchema, querystring: query } }, async (request, reply) => {
    const { spec } = await deps.builds.read(request.params.build, ({ build }) => build);
    const pdf = await cardPdf(cardsOf(spec), spec.name, request.query.paper);
    reply.header("content-disposition", 'inline; filename="tag-cards.pdf"');
    return reply.type("application/pdf").send(pdf as never);
  });
}
