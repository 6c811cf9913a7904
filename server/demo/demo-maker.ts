// The one running demo of a process: started once from the terminal or the page, its progress asked for by the page.
import type { DemoState } from "../../shared/api/demo.ts";
import type { Deps } from "../deps.ts";
import { type DemoProgress, findDemo, runDemo } from "./run-demo.ts";

export class DemoMaker {
  private readonly deps: Deps;
  private readonly dir: string;
  private current: DemoState = { state: "absent" };
  private running: Promise<DemoState> | undefined;

  /** @param dir folder of the demo's clips and pictures */
  constructor(deps: Deps, dir: string) {
    this.deps = deps;
    this.dir = dir;
  }

  /** How far it is; looks into the book when nothing runs. */
  async state(): Promise<DemoState> {
    if (this.running !== undefined) return this.current;
    if (this.current.state === "absent") {
      const build = await findDemo(this.deps);
      if (build !== undefined) this.current = { state: "there", build };
    }
    return this.current;
  }

  /** Start it unless it runs or is there already; resolves when it is there. */
  start(onProgress: (progress: DemoProgress) => void = () => {}): Promise<DemoState> {
    this.running ??= this.make(onProgress).finally(() => {
      this.running = undefined;
    });
    return this.running;
  }

  private async make(onProgress: (progress: DemoProgress) => void): Promise<DemoState> {
    // Before anything is awaited, so that whoever asks next already sees it run.
    this.become({ state: "running", done: 0, total: 1 });
    try {
      const there = await findDemo(this.deps);
      if (there !== undefined) return this.become({ state: "there", build: there });
      const summary = await runDemo(this.deps, this.dir, (progress) => {
        this.become({ state: "running", ...progress });
        onProgress(progress);
      });
      return this.become({ state: "there", build: summary.build, summary });
    } catch (error) {
      return this.become({ state: "failed", message: error instanceof Error ? error.message : String(error) });
    }
  }

  private become(state: DemoState): DemoState {
    this.current = state;
    return state;
  }
}
