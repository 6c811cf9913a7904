// Headers of every answer: a strict content policy, no sniffing, no framing, no referrer to others.
import helmet from "@fastify/helmet";
import type { App } from "./types.ts";

export async function securityHeaders(app: App): Promise<void> {
  await app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
        workerSrc: ["'self'", "blob:"],
        styleSrc: ["'self'"],
        // Plots place their marks by style attributes; scripts have no such way in.
        styleSrcAttr: ["'unsafe-inline'"],
        imgSrc: ["'self'", "blob:", "data:"],
        mediaSrc: ["'self'", "blob:"],
        fontSrc: ["'self'"],
        connectSrc: ["'self'"],
        manifestSrc: ["'self'"],
        formAction: ["'self'"],
        baseUri: ["'none'"],
        frameAncestors: ["'none'"],
        // No upgrade-insecure-requests: it would blank the pages served over plain http in the shop.
      },
    },
    // Told once, a browser would refuse the plain page that hands out the certificate.
    strictTransportSecurity: false,
    crossOriginOpenerPolicy: { policy: "same-origin" },
    crossOriginResourcePolicy: { policy: "same-origin" },
    // Nothing to other sites. Not "no-referrer": with it browsers send Origin: null along with the service's own forms.
    referrerPolicy: { policy: "same-origin" },
    xFrameOptions: { action: "deny" },
  });
  app.addHook("onRequest", async (_request, reply) => {
    reply.header("permissions-policy", "camera=(self), microphone=(self), geolocation=()");
  });
}
