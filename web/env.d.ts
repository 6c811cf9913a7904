// Types of what the bundler provides.
/// <reference types="vite/client" />
/// <reference types="vite-plugin-pwa/client" />
