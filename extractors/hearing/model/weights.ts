// Written by training/doubt.ts: the fitted weights of the doubt, in the order of its features.
export const WEIGHTS: readonly number[] = [3.607, 1.572, 2.873, 0.079, -5.132, -1.51, -2.082, -0.394, -3.674];
