// Written by training/doubt.ts: the fitted weights of the doubt, in the order of its features.
export const WEIGHTS: readonly number[] = [0.608, 0.584, 2.013, 1.786, -0.908, -4.123, -0.873, -1.474, -0.428];
