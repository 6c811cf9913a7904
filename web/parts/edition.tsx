// Newer screens from the shop are taken up only when a person says so, and never offered in the middle of a shift.

import { registerSW } from "virtual:pwa-register";
import { signal } from "@preact/signals";

const newer = signal(false);
let takeUp: (() => Promise<void>) | undefined;

/** Let the service worker keep the screens and the ear's model for when the shop is out of reach. */
export function keepScreens(): void {
  if (!("serviceWorker" in navigator)) return;
  const update = registerSW({
    onNeedRefresh() {
      newer.value = true;
    },
  });
  takeUp = () => update(true);
}

export function NewerScreens() {
  if (!newer.value) return null;
  return (
    <p class="newer" role="status">
      The shop has newer screens.{" "}
      <button type="button" class="small-button" onClick={() => void takeUp?.()}>
        Take them up
      </button>
    </p>
  );
}
