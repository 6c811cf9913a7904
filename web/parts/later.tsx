// A page whose code is only fetched when it is turned to.
import type { ComponentType, JSX } from "preact";
import { useEffect, useState } from "preact/hooks";

/** Wrap a page's import. */
export function later<P extends object>(load: () => Promise<{ default: ComponentType<P> }>): ComponentType<P> {
  return function Later(props: P): JSX.Element {
    const [shown, setShown] = useState<{ readonly page: ComponentType<P> }>();
    const [failed, setFailed] = useState(false);
    useEffect(() => {
      load().then(
        ({ default: page }) => setShown({ page }),
        () => setFailed(true),
      );
    }, []);
    if (failed)
      return <p class="page warning">This page could not be fetched from the shop. Load it again when the shop is in reach.</p>;
    if (shown === undefined) return <p class="page quiet">Turning the page…</p>;
    return <shown.page {...props} />;
  };
}
