// Which frequency scale a voice is heard best at, without trying all of them.

/** Below 1 for voices higher than the model's average. */
const SCALES: readonly number[] = [0.86, 0.9, 0.94, 0.97, 1, 1.03, 1.06, 1.1, 1.14];
/** Places in `SCALES` that are tried first: a middling voice, a high one and a low one. */
const FIRST_TRIED: readonly number[] = [4, 1, 7];

/** How phrases were heard at a scale. */
export interface Fit {
  readonly right: number;
  readonly cost: number;
}

const isBetter = (fit: Fit, than: Fit) => fit.right > than.right || (fit.right === than.right && fit.cost < than.cost);

/** The best fit of those tried: the search goes from the best of a few to a better neighbour as long as there is one. */
export function bestScale<T extends Fit>(fitAt: (warp: number) => T): T {
  const tried = SCALES.map((): T | undefined => undefined);
  let best: { readonly at: number; readonly fit: T } | undefined;
  const look = (at: number) => {
    const warp = SCALES[at];
    if (warp === undefined || tried[at] !== undefined) return;
    const fit = fitAt(warp);
    tried[at] = fit;
    if (best === undefined || isBetter(fit, best.fit)) best = { at, fit };
  };
  for (const at of FIRST_TRIED) look(at);
  for (let from: number | undefined; best !== undefined && best.at !== from; ) {
    from = best.at;
    for (const at of [from - 1, from + 1]) look(at);
  }
  if (best === undefined) throw new Error("Expected a scale to try, got none");
  return best.fit;
}
