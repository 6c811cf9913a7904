// Builds the screens from web/ into dist/web, with a service worker so that they open and hear with the server out of reach.

import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import preact from "@preact/preset-vite";
import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import { servedFiles } from "./extractors/hearing/node/model-files.ts";

const here = import.meta.dirname ?? ".";

/** What the ear fetches by address, as the server serves it, so that the service worker keeps it. */
const modelEntries = () =>
  [...servedFiles()].map(([name, file]) => ({
    url: `/model/${name}`,
    revision: createHash("sha256").update(readFileSync(file)).digest("hex").slice(0, 16),
  }));

export default defineConfig({
  root: "web",
  base: "/",
  // The runtime without graphics cards; its own files are fetched by address, from the shop.
  resolve: {
    alias: { "onnxruntime-web": "onnxruntime-web/wasm" },
    conditions: ["onnxruntime-web-use-extern-wasm", "browser", "module", "import", "default"],
  },
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
