// A tag of punched metal: a short word with a hole, as hung on parts at the bench.
import type { ComponentChildren } from "preact";

interface TagProps {
  readonly children: ComponentChildren;
  readonly on?: boolean;
  readonly onPick?: () => void;
  readonly label?: string;
}

/** A tag that says; with `onPick` it is a button that is pressed in while `on`. */
export function Tag({ children, on = false, onPick, label }: TagProps) {
  if (onPick === undefined) return <span class="tag">{children}</span>;
  return (
    <button type="button" class="tag tag-button" aria-pressed={on} aria-label={label} onClick={onPick}>
      {children}
    </button>
  );
}
