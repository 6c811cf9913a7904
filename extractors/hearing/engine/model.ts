// The acoustic model's files in, read once for every decoder of an ear; how they are got (a disk, a server) is the caller's affair.

/** Files of the acoustic model, as they lie in the recogniser's package. */
export const MODEL_FILES = ["feat_params.json", "mdef", "means", "variances", "sendump", "transition_matrices"] as const;
export type ModelFile = (typeof MODEL_FILES)[number];

/** Gets one file of the model whole; rejects when it cannot be had. */
export type ReadModelFile = (name: ModelFile) => Promise<Uint8Array>;

/** Settings of the front end that the model was trained with, by the recogniser's own names. */
export interface FrontEnd {
  readonly [name: string]: string | number | boolean;
  /** Coefficients that the lifter spans. */
  readonly lifter: number;
}

export interface Model {
  readonly features: FrontEnd;
  readonly files: Readonly<Record<ModelFile, Uint8Array>>;
}

/** The files of the Gaussians and of their weights: what may be fitted to a voice. */
export type GaussianFiles = Pick<Model["files"], "means" | "variances" | "sendump">;

/** Read the whole model. */
export async function readModel(read: ReadModelFile): Promise<Model> {
  // Plain arrays: of Node's buffers a slice is no copy.
  const entries = await Promise.all(MODEL_FILES.map(async (name) => [name, new Uint8Array(await read(name))] as const));
  const files = Object.fromEntries(entries) as Record<ModelFile, Uint8Array>;
  return { features: JSON.parse(new TextDecoder().decode(files["feat_params.json"])) as Model["features"], files };
}
