// Tells whoever watches a build that its log has grown. Carries no events: watchers read them from the store, so none is missed.
import { EventEmitter } from "node:events";

export class LiveBus {
  private readonly emitter = new EventEmitter().setMaxListeners(0);

  grown(build: string): void {
    this.emitter.emit(build);
  }

  /** Call `listener` whenever the build's log grows; the function returned stops it. */
  watch(build: string, listener: () => void): () => void {
    this.emitter.on(build, listener);
    return () => this.emitter.off(build, listener);
  }

  get watchers(): number {
    return this.emitter.eventNames().reduce((sum, name) => sum + this.emitter.listenerCount(name), 0);
  }
}
