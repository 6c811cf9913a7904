// The shelf: every build in the shop's book, newest first; the demo build is offered while there is none.
import { useEffect, useState } from "preact/hooks";
import type { BuildRow } from "../../shared/api/builds.ts";
import type { DemoState } from "../../shared/api/demo.ts";
import { TakeIn } from "../parts/take-in.tsx";
import { dayOf } from "../parts/time.ts";
import { Writers } from "../parts/writers.tsx";
import { linkTo } from "../route.ts";
import { bench } from "../store/bench.ts";
import { getSetting, setSetting } from "../store/device.ts";
import { asFailure } from "../store/failure.ts";
import { demoState, listBuilds, startDemo } from "../store/shop.ts";

const SHELF = "shelf";
const ASK_AGAIN_MS = 700;

export function Shelf() {
  const [builds, setBuilds] = useState<readonly BuildRow[] | undefined>();
  const [trouble, setTrouble] = useState<string>();
  const load = async () => {
    const device = bench.value?.device;
    try {
      await bench.value?.outbox.meet();
      const rows = await listBuilds();
      setBuilds(rows);
      setTrouble(undefined);
      if (device !== undefined) await setSetting(device, SHELF, rows);
      await findLost(rows);
    } catch (error) {
      setTrouble(asFailure(error).message);
      if (device !== undefined) setBuilds((await getSetting<BuildRow[]>(device, SHELF)) ?? []);
    }
  };
  useEffect(() => void load(), []);
  return (
    <div class="page shelf">
      <h1>Builds</h1>
      {trouble === undefined ? null : <p class="warning">{trouble}. What this device remembers is shown.</p>}
      {builds === undefined ? <p class="quiet">Looking…</p> : null}
      <ul class="shelf-list">
        {(builds ?? []).map((row) => (
          <li key={row.id}>
            <a class="shelf-row" href={linkTo("book", row.id)}>
              <span class="shelf-name">{row.name}</span>
              <span class="shelf-engine">
                {row.engine}
                {row.customer === undefined ? "" : `, for ${row.customer}`}
              </span>
              <span class="shelf-count">
                <b>{row.counts.readings}</b> readings <b>{row.counts.photos}</b> pictures
                {row.counts.waiting === 0 ? "" : ` · ${row.counts.waiting} wait for a yes`}
              </span>
              <span class="shelf-day">
                {row.handedOverAt === undefined ? `last entry ${dayOf(row.lastAt)}` : `handed over ${dayOf(row.handedOverAt)}`}
              </span>
            </a>
          </li>
        ))}
      </ul>
      <Writers>
        <p>
          <a class="stamp-button" href={linkTo("new")}>
            Open a new build
          </a>
        </p>
      </Writers>
      {builds === undefined || trouble !== undefined ? null : <DemoOffer empty={builds.length === 0} onMade={load} />}
      <Writers>
        <TakeIn />
      </Writers>
    </div>
  );
}

/** A build that stands no longer where the shop had confirmed it to stand is looked into. */
async function findLost(rows: readonly BuildRow[]): Promise<void> {
  const { value } = bench;
  if (value === undefined) return;
  const { keep } = value.device;
  for (const build of await keep.builds()) {
    const ours = await keep.head(build);
    const theirs = rows.find(({ id }) => id === build)?.head;
    if (theirs?.hash !== ours?.hash) await value.outbox.compare(build);
  }
}

/** Offers the demo build: a day book of clips and pictures that is really run through hearing, reading and checking. */
function DemoOffer({ empty, onMade }: { empty: boolean; onMade: () => Promise<void> }) {
  const [state, setState] = useState<DemoState>({ state: "absent" });
  const [running, setRunning] = useState(false);
  useEffect(() => {
    let stopped = false;
    let timer: ReturnType<typeof setTimeout>;
    const ask = async () => {
      const now = await demoState().catch((): DemoState => ({ state: "absent" }));
      if (stopped) return;
      setState(now);
      if (now.state === "running") timer = setTimeout(() => void ask(), ASK_AGAIN_MS);
      else if (now.state === "there") await onMade();
    };
    void ask();
    return () => {
      stopped = true;
      clearTimeout(timer);
    };
  }, [running]);
  if (state.state === "there") return null;
  if (state.state === "running")
    return (
      <p class="offer" role="status">
        Making the demo build: {state.done} of {state.total} lines of its day book.
        <progress value={state.done} max={state.total} />
      </p>
    );
  return (
    <section class="offer">
      <h2>{empty ? "Nothing in the book yet" : "See it at work"}</h2>
      <p>
        The demo build is an invented engine: its clips are synthesised, its pictures drawn. They are really heard, read and
        checked here, on this machine.
      </p>
      {state.state === "failed" ? <p class="warning">It could not be made: {state.message}</p> : null}
      <button
        type="button"
        class="stamp-button"
        onClick={() => {
          void startDemo()
            .then(() => setRunning((before) => !before))
            .catch((error: unknown) => setState({ state: "failed", message: asFailure(error).message }));
        }}
      >
        Open the demo build
      </button>
    </section>
  );
}
