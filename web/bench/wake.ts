// Keeps the screen awake during a shift, again after each return to the page.

export class Wake {
  #lock: WakeLockSentinel | undefined;
  #wanted = false;
  readonly #again = () => {
    if (this.#wanted && document.visibilityState === "visible") void this.#take();
  };

  /** @returns whether the screen will stay awake; if not, the person has to set it in the device's settings */
  async hold(): Promise<boolean> {
    this.#wanted = true;
    document.addEventListener("visibilitychange", this.#again);
    return await this.#take();
  }

  async let(): Promise<void> {
    this.#wanted = false;
    document.removeEventListener("visibilitychange", this.#again);
    await this.#lock?.release().catch(() => undefined);
    this.#lock = undefined;
  }

  async #take(): Promise<boolean> {
    const wakeLock = navigator.wakeLock as WakeLock | undefined;
    if (wakeLock === undefined) return false;
    try {
      this.#lock = await wakeLock.request("screen");
      return true;
    } catch {
      return false;
    }
  }
}
