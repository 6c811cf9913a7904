// Holds a table that may be wider than the screen, so that it alone scrolls sideways.
import type { ComponentChildren } from "preact";

export function Wide({ label, children }: { label: string; children: ComponentChildren }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section class="wide" aria-label={label} tabIndex={0}>
      {children}
    </section>
  );
}
