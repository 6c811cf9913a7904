// Written by training/doubt.ts: the fitted weights of the doubt, in the order of its features.
export const WEIGHTS: readonly number[] = [8.272, 0.901, 2.692, -0.891, -2.976, -3.259, -4.874, 0.065, -4.881];
