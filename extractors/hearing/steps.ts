// Work that is done a step at a time, so that it can be left between two of them; and how to do it all at once.

/** All the steps that are left. */
export function finish<T>(work: Generator<unknown, T>): T {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}
