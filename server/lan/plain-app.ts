// The listener that speaks plain http on the shop's network: the page that explains, the authority's certificate, and the book
// with typed entry and photo upload for paired devices. It has no API and no screens.
import { z } from "zod";
import { buildParamsSchema } from "../../shared/api/builds.ts";
import { blobParamsSchema, LIMITS, utteranceSchema } from "../../shared/api/entries.ts";
import type { Parsed } from "../../shared/events/reading.ts";
import { placeLabel } from "../../shared/places/places.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import { mayDo } from "../access/access.ts";
import { logPhotos } from "../builds/photos.ts";
import { logWords } from "../builds/utterance.ts";
import { whoOf } from "../builds/who.ts";
import type { Deps } from "../deps.ts";
import { ServiceError } from "../errors.ts";
import { type BaseOptions, baseApp } from "../http/base.ts";
import { blobsOfForm, withForm } from "../http/multipart.ts";
import { formOf, pageScope, sendPage, styleRoute } from "../http/plain-forms.ts";
import { UPLOAD_RATE } from "../http/rates.ts";
import type { App } from "../http/types.ts";
import { PICTURES, pictureOf } from "../photos/pictures.ts";
import { PHOTO_RULES } from "../routes/photos.ts";
import { toBuildRow } from "../routes/summary.ts";
import { bookPage, buildPage } from "./book-pages.ts";
import type { DoorList } from "./door-list.ts";
import { AUTHORITY_PATH, explainPage } from "./explain-page.ts";
import type { LanUrls } from "./owner-routes.ts";
import { pairRoutes } from "./pair-routes.ts";
import type { Pairing } from "./pairing.ts";
import { recordRoutes } from "./record-routes.ts";
import { seenRoute } from "./seen-page.ts";

export interface PlainParts {
  readonly deps: Deps;
  readonly list: DoorList;
  readonly pairing: Pairing;
  readonly urls: () => LanUrls;
  readonly canonical: string;
  /** The authority's certificate as DER. */
  readonly authority: Uint8Array;
}

const open = { schema: { hide: true }, config: { needs: "open" as const } };

export async function plainApp(parts: PlainParts, options: BaseOptions): Promise<App> {
  const { deps, urls } = parts;
  const app = await baseApp(deps.access, options);
  app.setNotFoundHandler(() => {
    throw new ServiceError(
      "not_found",
      "Expected a page of the plain listener, got another: the service itself is at the secure address",
    );
  });
  styleRoute(app);
  seenRoute(app);
  app.get("/", open, async (_request, reply) => {
    const { secure, secureByAddress, fingerprint } = urls();
    return sendPage(
      reply,
      explainPage({ secureUrl: secure, secureUrlByAddress: secureByAddress, fingerprint, canonical: parts.canonical }),
    );
  });
  // This type is what has phones offer to install it rather than show it.
  app.get(AUTHORITY_PATH, open, async (_request, reply) =>
    reply
      .type("application/x-x509-ca-cert")
      .header("content-disposition", 'attachment; filename="shop-authority.crt"')
      .header("cache-control", "no-store")
      .send(Buffer.from(parts.authority)),
  );
  pairRoutes(app, "plain", parts.pairing, parts.list);
  bookRoutes(app, deps);
  recordRoutes(app, deps, parts.list, "plain");
  return app;
}

function bookRoutes(app: App, deps: Deps): void {
  app.get("/book", { schema: { hide: true } }, async (_request, reply) => {
    const { builds } = await deps.builds.readAll(toBuildRow);
    return sendPage(reply, bookPage(builds));
  });

  app.get("/book/:build", { schema: { hide: true, params: buildParamsSchema } }, async (request, reply) => {
    const mayWrite = request.principal !== null && mayDo(request.principal.role, "bench");
    return sendPage(reply, await deps.builds.read(request.params.build, (opened) => buildPage(opened, mayWrite)));
  });

  pageScope(app, (scope) => {
    scope.post("/book/:build/say", { schema: { hide: true, params: buildParamsSchema } }, async (request, reply) => {
      const { text } = formOf(request, z.strictObject({ text: utteranceSchema.shape.text }));
      const { build } = request.params;
      const logged = await logWords(deps, { build }, whoOf(deps, request), {
        same: () => false,
        understand: (context, spec) => ({ parsed: deps.parse(text, context, spec), heard: { by: "typed" } }),
      });
      const answer = logged.again ? "Entered." : answerTo(logged.parsed, logged.say);
      return sendPage(reply, await deps.builds.read(build, (opened) => buildPage(opened, true, answer)));
    });
  });

  app.post(
    "/book/:build/photos",
    {
      schema: { hide: true, params: buildParamsSchema },
      config: { maxBytes: LIMITS.photo * LIMITS.photos, rateLimit: UPLOAD_RATE },
    },
    async (request, reply) => {
      const { build } = request.params;
      await deps.builds.read(build, () => undefined);
      await withForm(request, deps.blobs, PHOTO_RULES, ({ files, fields }) =>
        logPhotos(deps, build, blobsOfForm(files), fields, whoOf(deps, request)),
      );
      return sendPage(reply, await deps.builds.read(build, (opened) => buildPage(opened, true, "The photo is in the book.")));
    },
  );

  for (const size of PICTURES)
    app.get(`/photos/:sha256/${size}`, { schema: { hide: true, params: blobParamsSchema } }, async (request, reply) =>
      reply
        .type("image/webp")
        .header("cache-control", "private, max-age=31536000, immutable")
        .send((await pictureOf(deps, request.params.sha256, size)) as never),
    );
}

/** What was made of typed words, in one line. */
function answerTo(parsed: Parsed, say: readonly string[]): string {
  const readings = parsed.readings.map(
    ({ quantity, place, digits, unit, do: act }) =>
      `${QUANTITIES[quantity].label}, ${placeLabel(place) || "engine"}: ${digits} ${unit}${act === "confirm" ? " (waits for a yes)" : ""}`,
  );
  const lines = [...readings, ...say];
  return lines.length > 0 ? lines.join(". ") : "Kept as words; nothing was read from them.";
}
