// What the acoustic network says of a clip: a log posterior for each phone and the blank, every 40 ms.

export interface Posteriors {
  /** Natural logarithms, `labels` a frame. */
  readonly values: Float32Array;
  readonly frames: number;
  readonly labels: number;
}
