// The shell: the cover strip, the thumb index of a build, and the page that the address names.
import type { ComponentType } from "preact";
import { useEffect, useRef } from "preact/hooks";
import type { Build } from "../shared/build/index.ts";
import { BenchScreen } from "./bench/bench-screen.tsx";
import { BoresPage } from "./pages/bores.tsx";
import { DayBook } from "./pages/day-book.tsx";
import { GaugesPage } from "./pages/gauges.tsx";
import { NewBuild } from "./pages/new-build.tsx";
import { PlacePage } from "./pages/place.tsx";
import { RecordPage } from "./pages/record.tsx";
import { Shelf } from "./pages/shelf.tsx";
import { WhatIfPage } from "./pages/what-if.tsx";
import { NewerScreens } from "./parts/edition.tsx";
import { HeldBack } from "./parts/held-back.tsx";
import { later } from "./parts/later.tsx";
import { Unsent } from "./parts/unsent.tsx";
import { LOOKS_ONLY, Writers } from "./parts/writers.tsx";
import { linkTo, type Page, route } from "./route.ts";
import { bench, openBook, turnTo } from "./store/bench.ts";
import type { Book } from "./store/book.ts";
import { mayWrite } from "./store/caller.ts";
import { person } from "./store/device.ts";

export interface BuildPageProps {
  readonly book: Book;
  readonly build: Build;
  /** Differs after every change of the build, which is changed in place. */
  readonly tick: number;
}

/** Pages of a build, in the order of the thumb index. */
const BUILD_PAGES: readonly { readonly page: Page; readonly title: string; readonly show: ComponentType<BuildPageProps> }[] = [
  { page: "book", title: "Day book", show: DayBook },
  { page: "bench", title: "At the vise", show: BenchScreen },
  { page: "place", title: "Places", show: PlacePage },
  { page: "bores", title: "Bore map", show: BoresPage },
  { page: "whatif", title: "What if", show: WhatIfPage },
  { page: "sheet", title: "Spec sheet", show: later(() => import("./pages/sheet.tsx")) },
  { page: "gauges", title: "Gauges", show: GaugesPage },
  { page: "record", title: "Record", show: RecordPage },
];

const PersonPage = later(() => import("./pages/person.tsx"));

export function App() {
  const { page, build: id } = route.value;
  if (bench.value === undefined) return <p class="page quiet">Opening the book…</p>;
  turnTo(id);
  const shown = BUILD_PAGES.find((row) => row.page === page);
  if (page === "bench" && shown !== undefined && mayWrite()) return <main id="page">{<BuildPage show={shown.show} />}</main>;
  return (
    <>
      <button type="button" class="skip" onClick={skip}>
        To the page
      </button>
      <header class="cover">
        <a class="wordmark" href={linkTo("shelf")}>
          thoubook
        </a>
        <a class="signed" href={linkTo("person")}>
          signed: {person.value}
        </a>
        <Unsent />
      </header>
      <NewerScreens />
      <HeldBack />
      {id === undefined ? null : <ThumbIndex id={id} page={page} />}
      <main id="page" tabIndex={-1}>
        {shown === undefined ? <LoosePage page={page} /> : <BuildPage show={shown.show} />}
      </main>
    </>
  );
}

/** Pages that belong to no build. */
function LoosePage({ page }: { page: Page }) {
  if (page === "new")
    return (
      <Writers instead={<p class="page warning">{LOOKS_ONLY}</p>}>
        <NewBuild />
      </Writers>
    );
  return page === "person" ? <PersonPage /> : <Shelf />;
}

/** A button and no link: the address's hash is where the screen is. */
function skip(): void {
  document.getElementById("page")?.focus();
}

function ThumbIndex({ id, page }: { id: string; page: Page }) {
  // On a narrow screen the row of tabs scrolls: the one that is open is brought into sight.
  const current = useRef<HTMLAnchorElement>(null);
  useEffect(() => current.current?.scrollIntoView({ block: "nearest", inline: "center" }), [page]);
  return (
    <nav class="thumb-index" aria-label="Pages of this build">
      {BUILD_PAGES.filter(({ page: one }) => one !== "bench" || mayWrite()).map((row) => (
        <a
          key={row.page}
          ref={row.page === page ? current : null}
          href={linkTo(row.page, id)}
          aria-current={row.page === page ? "page" : undefined}
        >
          {row.title}
        </a>
      ))}
    </nav>
  );
}

function BuildPage({ show: Show }: { show: ComponentType<BuildPageProps> }) {
  const book = openBook.value;
  const build = book?.build;
  if (book === undefined || book.loading.value) return <p class="page quiet">Opening the build…</p>;
  if (build === undefined) {
    const trouble = book.trouble.value;
    return (
      <div class="page">
        <h1>This build cannot be shown</h1>
        <p class="warning">{trouble?.message ?? "Expected its log from the shop, got none"}.</p>
        <p>
          <a href={linkTo("shelf")}>Back to the shelf</a>
        </p>
      </div>
    );
  }
  if (Show === BenchScreen && !mayWrite()) return <p class="page warning">{LOOKS_ONLY}</p>;
  return <Show book={book} build={build} tick={book.tick.value} />;
}
