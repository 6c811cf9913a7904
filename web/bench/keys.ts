// The keys that listen or leave be: a foot switch is a keyboard to the browser and sends one of these.

const KEYS: ReadonlySet<string> = new Set([
  " ",
  "F1",
  "F2",
  "F3",
  "F4",
  "F7",
  "F8",
  "F9",
  "F10",
  "PageDown",
  "PageUp",
  "MediaPlayPause",
]);
/** Where a key has a meaning of its own. */
const OWN_USE = "input, textarea, select, button, a, summary, audio";

/** Call `press` for each such key; gives the function that stops it. */
export function onSwitch(press: () => void): () => void {
  const listen = (event: KeyboardEvent) => {
    if (!KEYS.has(event.key) || event.repeat || event.ctrlKey || event.altKey || event.metaKey) return;
    const at = event.target instanceof Element ? event.target : undefined;
    if (event.key === " " && at?.closest(OWN_USE) != null) return;
    event.preventDefault();
    press();
  };
  addEventListener("keydown", listen);
  return () => removeEventListener("keydown", listen);
}
