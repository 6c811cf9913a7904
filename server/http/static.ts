// The built screens and the recogniser's model files. Whatever is not a page's address and has no file is a true 404.
import { existsSync } from "node:fs";
import { basename, dirname, extname, join } from "node:path";
import fastifyStatic from "@fastify/static";
import type { FastifyReply, FastifyRequest } from "fastify";
import { notFound } from "./errors.ts";
import type { App } from "./types.ts";

const YEAR = 31_536_000;
const DAY_MS = 86_400_000;
const NO_BUILD = "The screens are not built: run npm run build, then start again.\n";

export interface StaticFolders {
  readonly webDir?: string;
  /** Files that a browser's ear fetches, by their name below /model/. */
  readonly modelFiles?: ReadonlyMap<string, string>;
}

export async function serveFiles(app: App, { webDir, modelFiles }: StaticFolders): Promise<void> {
  const web = webDir !== undefined && existsSync(join(webDir, "index.html")) ? webDir : undefined;
  await app.register(fastifyStatic, {
    root: web ?? process.cwd(),
    serve: web !== undefined,
    wildcard: true,
    cacheControl: false,
    setHeaders: (reply, path) => {
      // Names under assets/ hold a hash of their content; all else is asked for again.
      const lasting = path.includes("/assets/");
      reply.setHeader("cache-control", lasting ? `public, max-age=${YEAR}, immutable` : "no-cache");
    },
  });
  for (const [name, file] of modelFiles ?? [])
    app.get(`/model/${name}`, (_request, reply) =>
      reply.sendFile(basename(file), dirname(file), { cacheControl: true, maxAge: DAY_MS }),
    );
  // The reply is sent, not returned: a returned one is waited for once more at every step it passes.
  app.setNotFoundHandler((request, reply) => {
    pageOr404(request, reply, web);
  });
}

function pageOr404(request: FastifyRequest, reply: FastifyReply, web: string | undefined): FastifyReply {
  const path = request.url.split("?", 1)[0] ?? "/";
  const navigates = request.method === "GET" && (request.headers.accept ?? "").includes("text/html");
  const service = path.startsWith("/api/") || path.startsWith("/model/");
  if (!navigates || service || extname(path) !== "") throw notFound(`${request.method} ${path.slice(0, 60)}`);
  if (web === undefined) return reply.code(503).type("text/plain; charset=utf-8").send(NO_BUILD);
  return reply.header("cache-control", "no-cache").sendFile("index.html", web);
}
