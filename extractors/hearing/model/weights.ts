// Written by training/doubt.ts: the fitted weights of the doubt, in the order of its features.
export const WEIGHTS: readonly number[] = [0.513, 0.213, 3.314, 1.194, -1.705, -3.974, -1.126, 0.073];
