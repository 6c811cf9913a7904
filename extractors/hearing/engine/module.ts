// The recogniser's WebAssembly module as this project uses it: a few raw calls beside the library's own classes.
// The library types only its JavaScript layer; the calls with an underscore are exports of the same build.

export interface RawDecoder {
  readonly cdecoder: number;
  initialize(): Promise<void>;
  /** Replaced by ours: see `Decoder.open`. */
  init_dict(): Promise<void>;
  delete(): void;
  start(): void;
  stop(): void;
  process_audio(pcm: Float32Array, noSearch?: boolean, fullUtterance?: boolean): number;
  get_alignment(): Segment;
}

/** One stretch of the result: `t` words, `b` begin and `d` duration in seconds. */
export interface Segment {
  readonly t: string;
  readonly b: number;
  readonly d: number;
  readonly p: number;
  readonly w?: readonly Segment[];
}

export interface EngineModule {
  readonly HEAPU8: Uint8Array;
  readonly HEAP32: Int32Array;
  readonly Decoder: new (config: Record<string, string | number | boolean>) => RawDecoder;
  _malloc(bytes: number): number;
  _free(at: number): void;
  _s3file_init(at: number, bytes: number): number;
  _decoder_init_grammar_s3file(decoder: number, fsg: number, jsgf: number): number;
  _decoder_init_dict_s3file(decoder: number, dictionary: number, noise: number): number;
  _decoder_hyp(decoder: number, score: number): number;
}

export type EngineFactory = (options: {
  modelBase: string;
  print?: unknown;
  printErr?: unknown;
  locateFile?: unknown;
}) => Promise<unknown>;
