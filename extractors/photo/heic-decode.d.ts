// Types of the HEIC decoder, which brings none of its own.
declare module "heic-decode" {
  interface Decoded {
    readonly width: number;
    readonly height: number;
    readonly data: Uint8ClampedArray;
  }
  interface Waiting {
    readonly width: number;
    readonly height: number;
    decode(): Promise<Decoded>;
  }
  const heic: { all(input: { buffer: Uint8Array }): Promise<Waiting[]> };
  export default heic;
}
