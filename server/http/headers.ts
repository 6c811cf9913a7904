// Headers of every answer: a strict content policy, no sniffing, no framing, no referrer to others.
import helmet from "@fastify/helmet";
import type { App } from "./types.ts";

/** What a page of the shop may ask the browser for; all else that a browser offers is off. */
const PERMISSIONS = [
  "camera=(self)",
  "microphone=(self)",
  "screen-wake-lock=(self)",
  "fullscreen=(self)",
  ...["geolocation", "payment", "usb", "serial", "hid", "midi", "display-capture", "publickey-credentials-get"].map(
    (name) => `${name}=()`,
  ),
].join(", ");

export async function securityHeaders(app: App): Promise<void> {
  await app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        // The ear is a WebAssembly module: it may be compiled, text may not become script.
        scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
        workerSrc: ["'self'", "blob:"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'", "blob:", "data:"],
        mediaSrc: ["'self'", "blob:"],
        fontSrc: ["'self'"],
        connectSrc: ["'self'"],
        manifestSrc: ["'self'"],
        formAction: ["'self'"],
        baseUri: ["'none'"],
        objectSrc: ["'none'"],
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
    reply.header("permissions-policy", PERMISSIONS);
  });
  app.addHook("onSend", async (_request, reply) => {
    // Answers are of the moment and of one caller; those that may be kept say so themselves.
    if (!reply.hasHeader("cache-control") && !reply.raw.hasHeader("cache-control")) reply.header("cache-control", "no-store");
  });
}
