// Newer screens from the shop are taken up only when a person says so, and never offered in the middle of a shift. Whoever says so
// speaks for one page: another that is open goes on as it is, with what is half typed there.

import { registerSW } from "virtual:pwa-register";
import { signal } from "@preact/signals";

const newer = signal<"none" | "offered" | "taken" | "taken elsewhere">("none");
let takeUp: (() => Promise<void>) | undefined;

/** Let the service worker keep the screens and the ear's model for when the shop is out of reach. */
export function keepScreens(): void {
  if (!("serviceWorker" in navigator)) return;
  const update = registerSW({
    onNeedRefresh() {
      newer.value = "offered";
    },
    onNeedReload() {
      if (newer.value === "taken") location.reload();
      else newer.value = "taken elsewhere";
    },
  });
  takeUp = () => {
    newer.value = "taken";
    return update();
  };
}

export function NewerScreens() {
  const { value } = newer;
  if (value === "none") return null;
  const [words, act, go] =
    value === "taken elsewhere"
      ? ([
          "Newer screens were taken up in another window. This page goes on as it is.",
          "Load it again",
          () => location.reload(),
        ] as const)
      : (["The shop has newer screens.", "Take them up", () => void takeUp?.()] as const);
  return (
    <p class="newer" role="status">
      {words}{" "}
      <button type="button" class="small-button" onClick={go}>
        {act}
      </button>
    </p>
  );
}
