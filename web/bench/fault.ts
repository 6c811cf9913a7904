// What can keep the bench from listening, each with plain words and what to do. Typing is there with every one of them.

export const FAULTS = {
  insecure: {
    title: "No microphone over plain http",
    words:
      "The browser gives the microphone only to pages it can trust, and this one came over plain http. Open the shop's https address, or open it on the shop's own machine.",
  },
  refused: {
    title: "The microphone was refused",
    words:
      "The browser was told not to let this page listen. Allow the microphone for this page in the browser's settings, then start again.",
  },
  no_microphone: {
    title: "No microphone found",
    words: "This device shows no microphone to the browser. Plug one in or connect a headset, then start again.",
  },
  busy: {
    title: "The microphone is taken",
    words: "Another program holds the microphone. Close it, then start again.",
  },
  no_worklet: {
    title: "This browser is too old to listen",
    words: "It cannot hand the sound of the microphone to this page. Use a newer browser.",
  },
  ear_failed: {
    title: "The recogniser did not start",
    words: "The part that hears words could not be loaded or has stopped. Load the page again with the shop in reach.",
  },
} as const;

export type FaultCode = keyof typeof FAULTS;

export class BenchFault extends Error {
  readonly code: FaultCode;
  constructor(code: FaultCode, detail = "") {
    super(`${FAULTS[code].title}${detail === "" ? "" : `: ${detail}`}`);
    this.name = "BenchFault";
    this.code = code;
  }
}

const BY_NAME: Readonly<Record<string, FaultCode>> = {
  NotAllowedError: "refused",
  SecurityError: "refused",
  NotFoundError: "no_microphone",
  OverconstrainedError: "no_microphone",
  NotReadableError: "busy",
  AbortError: "busy",
};

/** The fault behind what a browser throws when it is asked for the microphone. */
export function faultOf(error: unknown): BenchFault {
  if (error instanceof BenchFault) return error;
  const name = error instanceof Error ? error.name : "";
  return new BenchFault(BY_NAME[name] ?? "no_microphone", error instanceof Error ? error.message : String(error));
}
