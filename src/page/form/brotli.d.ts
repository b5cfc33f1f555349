/** The part of the package that says where it reads from and writes to: what its own interface unfolds knows no limit. */
declare module 'brotli/dec/decode.js' {
  export interface Source {
    readonly read: (into: Uint8Array, from: number, count: number) => number;
  }

  export interface Sink {
    /** Made larger where its length does not hold what comes. */
    readonly buffer: { readonly length: number };
    readonly write: (part: Uint8Array, count: number) => number;
  }

  export function BrotliDecompress(source: Source, sink: Sink): void;
}
