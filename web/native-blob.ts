// Stands in for the recogniser's Blob polyfill, which touches `document` and dies in a worker: every browser of ours has its own.
const NativeBlob = globalThis.Blob;

export { NativeBlob as Blob };
