declare module 'fft.js' {
  /** Radix-4 transform of a fixed size, a power of two above 1. Complex arrays are interleaved: real, imaginary, real … */
  export default class FFT {
    constructor(size: number);
    readonly size: number;
    transform(output: Float64Array, input: Float64Array): void;
    realTransform(output: Float64Array, input: Float64Array): void;
  }
}
