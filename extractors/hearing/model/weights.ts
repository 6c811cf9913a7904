// Written by training/doubt.ts: the fitted weights of the doubt, in the order of its features.
export const WEIGHTS: readonly number[] = [8.292, 0.95, 2.464, 0.256, -3.623, -3.164, -3.366, 0.031, -5.153];
