// Builds the screens from web/ into dist/web, with a service worker so that they open and hear with the server out of reach.

import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import preact from "@preact/preset-vite";
import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";

const here = import.meta.dirname ?? ".";
const MODEL = resolve(here, "node_modules/soundswallower/model/en-us");
/** The stock dictionary is not among them: the grammar brings its own. */
const NOT_NEEDED = new Set(["dict.txt", "README.txt"]);

/** The recogniser's model files as the server serves them, so that the service worker keeps them. */
function modelEntries(): { url: string; revision: string }[] {
  if (!existsSync(MODEL)) return [];
  return readdirSync(MODEL)
    .filter((name) => !NOT_NEEDED.has(name))
    .map((name) => ({
      url: `/model/en-us/${name}`,
      revision: createHash("sha256")
        .update(readFileSync(join(MODEL, name)))
        .digest("hex")
        .slice(0, 16),
    }));
}

export default defineConfig({
  root: "web",
  base: "/",
  resolve: { alias: { "blob-polyfill": resolve(here, "web/native-blob.ts") } },
  worker: { format: "es" },
  build: {
    outDir: resolve(here, "dist/web"),
    emptyOutDir: true,
    target: "es2022",
    // Inlined files would be data: addresses, which the content policy refuses for scripts.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1500,
  },
  plugins: [
    preact({ devToolsEnabled: false }),
    VitePWA({
      registerType: "prompt",
      injectRegister: null,
      manifest: {
        name: "thoubook",
        short_name: "thoubook",
        description: "A bench book that listens: readings, photos and verdicts of one engine's rebuild.",
        start_url: "/",
        display: "standalone",
        background_color: "#f3efe2",
        theme_color: "#16222d",
        icons: [
          { src: "/plate-192.png", sizes: "192x192", type: "image/png" },
          { src: "/plate-512.png", sizes: "512x512", type: "image/png", purpose: "any maskable" },
        ],
      },
      workbox: {
        globPatterns: ["**/*.{js,css,html,png,svg,wasm}"],
        maximumFileSizeToCacheInBytes: 16 * 1024 * 1024,
        additionalManifestEntries: modelEntries(),
        navigateFallback: "/index.html",
        // All other addresses are the service's own pages.
        navigateFallbackAllowlist: [/^\/$/],
        runtimeCaching: [
          {
            urlPattern: /\/api\/photos\/[0-9a-f]{64}\/thumb$/,
            handler: "CacheFirst",
            options: { cacheName: "thumbs", expiration: { maxEntries: 400 } },
          },
        ],
      },
    }),
  ],
});
