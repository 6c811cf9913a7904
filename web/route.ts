// Where in the book the screen is, as the address's hash: `#/book/ID?cylinder=2&step=rings`.
import { signal } from "@preact/signals";

export const PAGES = [
  "shelf",
  "new",
  "book",
  "bench",
  "place",
  "bores",
  "whatif",
  "sheet",
  "record",
  "gauges",
  "person",
] as const;
export type Page = (typeof PAGES)[number];

export interface Route {
  readonly page: Page;
  readonly build?: string;
  /** What stands after the build: a place key. */
  readonly rest?: string;
  readonly query: URLSearchParams;
}

/** Read a hash; an unknown one is the shelf. */
export function readRoute(hash: string): Route {
  const [path = "", query = ""] = hash.replace(/^#\/?/, "").split("?");
  const [name, build, ...rest] = path.split("/").map(decodeURIComponent);
  const page = PAGES.find((known) => known === name) ?? "shelf";
  return {
    page,
    query: new URLSearchParams(query),
    ...(build === undefined || build === "" ? {} : { build }),
    ...(rest.length === 0 ? {} : { rest: rest.join("/") }),
  };
}

/** Hash of a page. */
export function linkTo(page: Page, build?: string, rest?: string, query: Readonly<Record<string, string>> = {}): string {
  const search = new URLSearchParams(query).toString();
  const path = [page, build, rest].filter((part): part is string => part !== undefined).map(encodeURIComponent);
  return `#/${path.join("/")}${search === "" ? "" : `?${search}`}`;
}

export const route = signal<Route>(readRoute(globalThis.location?.hash ?? ""));

/** Follow the address. */
export function followAddress(): void {
  addEventListener("hashchange", () => {
    route.value = readRoute(location.hash);
    scrollTo({ top: 0 });
  });
}
