// The door in front of every route: the name it was called by, the page it was called from, who calls, how much is sent.
import type { FastifyReply, FastifyRequest } from "fastify";
import { LIMITS } from "../../shared/api/entries.ts";
import { type Access, cutOff, mayDo, type Need } from "../access/access.ts";
import { expected, ServiceError } from "../errors.ts";
import type { App } from "./types.ts";

const FILE_ROUTES: ReadonlySet<string> = new Set(["/*", "/model/*"]);
const SAFE: ReadonlySet<string> = new Set(["GET", "HEAD", "OPTIONS"]);

/** Install the checks; they run before any body is read. */
export function guard(app: App, access: Access): void {
  app.decorateRequest("principal", null);
  app.addHook("onRequest", async (request, reply) => {
    checkHost(request, access);
    checkOrigin(request);
    checkLength(request);
    const allowed = await checkRole(request, access);
    // A person is shown the way in; a program is told by the code.
    if (!allowed && access.pairingPage !== undefined && isPage(request)) return reply.redirect(access.pairingPage, 303);
    if (!allowed) throw new ServiceError("not_paired", "Expected a paired device for this request, got none");
    endOnCutOff(request, reply, access);
  });
  // A body may take its time: whoever was cut off while it came in is somebody no longer.
  app.addHook("preHandler", async ({ principal }) => {
    if (principal !== null && !access.isIn(principal)) throw cutOff();
  });
}

/** What is being sent to a device ends with its pass. */
function endOnCutOff({ principal, routeOptions }: FastifyRequest, reply: FastifyReply, access: Access): void {
  if (principal === null || routeOptions.config.endsItself === true) return;
  reply.raw.once(
    "close",
    access.onCutOff(principal, () => reply.raw.headersSent && reply.raw.destroy()),
  );
}

/** A page that has its own name pointed at this address still sends that name. */
function checkHost(request: FastifyRequest, access: Access): void {
  const host = request.headers.host ?? request.headers[":authority"];
  if (typeof host === "string" && access.hostAllowed(host)) return;
  throw new ServiceError("forbidden_host", "Expected a name of this service for Host, got another");
}

/** Another site's page may send requests here, but its browser says whence they come. */
function checkOrigin(request: FastifyRequest): void {
  const { origin, host } = request.headers;
  const site = request.headers["sec-fetch-site"];
  const foreign = origin !== undefined && origin !== `${request.protocol}://${host}`;
  const otherSite = site !== undefined && site !== "same-origin" && site !== "none";
  if (SAFE.has(request.method)) {
    // Following a link here is fine; reading the service's data from another page is not.
    const navigates = request.headers["sec-fetch-mode"] === "navigate" && request.headers["sec-fetch-dest"] === "document";
    if ((foreign || otherSite) && !navigates) throw otherOrigin();
    return;
  }
  if (foreign || otherSite) throw otherOrigin();
}

const otherOrigin = () => new ServiceError("forbidden_origin", "Expected this service's own page for Origin, got another");

function checkLength(request: FastifyRequest): void {
  const announced = Number(request.headers["content-length"] ?? 0);
  const most = request.routeOptions.config.maxBytes ?? LIMITS.json;
  if (announced > most)
    throw new ServiceError("too_large", expected(`at most ${most} bytes`, "the body", `${announced} announced`));
}

/** Whether the caller is known where the route asks for somebody. @throws ServiceError `forbidden_role` */
async function checkRole(request: FastifyRequest, access: Access): Promise<boolean> {
  const need = needOf(request);
  const principal = await access.identify(request);
  request.principal = principal ?? null;
  if (need === "open") return true;
  if (principal === undefined) return false;
  if (!mayDo(principal.role, need))
    throw new ServiceError("forbidden_role", expected(`the role ${need} or higher`, "this request", principal.role));
  return true;
}

/** The service's data is for viewers, writing is for the bench; the screens' own files hold nothing of the shop's. */
function needOf(request: FastifyRequest): Need {
  const { needs } = request.routeOptions.config;
  if (needs !== undefined) return needs;
  if (!SAFE.has(request.method)) return "bench";
  // By the route that was matched, not by the address as written: an address has many spellings.
  const pattern = request.routeOptions.url;
  const file = pattern === undefined || FILE_ROUTES.has(pattern);
  return file && !isPage(request) ? "open" : "viewer";
}

/** A person going to a page, as against a program fetching a file. */
export function isPage(request: FastifyRequest): boolean {
  return request.method === "GET" && (request.headers.accept ?? "").includes("text/html");
}
