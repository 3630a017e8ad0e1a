import FFT from "fft.js";

/** Complex values of a square tile, row by row, real and imaginary part in turn; frequency 0 first. */
export type Spectrum = Float64Array;

/** Transforms square tiles of one size, a power of two. */
export class TileTransform {
  readonly sizePx: number;
  readonly #fft: FFT;
  readonly #line: Float64Array;
  readonly #out: Float64Array;

  constructor(sizePx: number) {
    this.sizePx = sizePx;
    this.#fft = new FFT(sizePx);
    this.#line = new Float64Array(2 * sizePx);
    this.#out = new Float64Array(2 * sizePx);
  }

  /** Spectra of two real tiles by one transform: the one as real, the other as imaginary part. */
  pair(one: Float32Array, other: Float32Array): [Spectrum, Spectrum] {
    const n = this.sizePx;
    const both = new Float64Array(2 * n * n);
    for (let at = 0; at < n * n; at++) {
      both[2 * at] = one[at] as number;
      both[2 * at + 1] = other[at] as number;
    }
    this.#transform(both, false);
    const first = new Float64Array(both.length);
    const second = new Float64Array(both.length);
    for (let y = 0; y < n; y++) {
      for (let x = 0; x < n; x++) {
        const at = 2 * (y * n + x);
        const mirrored = 2 * (((n - y) % n) * n + ((n - x) % n));
        const re = both[at] as number;
        const im = both[at + 1] as number;
        const mirroredRe = both[mirrored] as number;
        const mirroredIm = both[mirrored + 1] as number;
        first[at] = (re + mirroredRe) / 2;
        first[at + 1] = (im - mirroredIm) / 2;
        second[at] = (im + mirroredIm) / 2;
        second[at + 1] = (mirroredRe - re) / 2;
      }
    }
    return [first, second];
  }

  /** Back to places; changes its argument. */
  inverse(spectrum: Spectrum): void {
    this.#transform(spectrum, true);
  }

  #transform(values: Float64Array, back: boolean): void {
    const n = this.sizePx;
    const run = () => (back ? this.#fft.inverseTransform(this.#out, this.#line) : this.#fft.transform(this.#out, this.#line));
    for (let y = 0; y < n; y++) {
      this.#line.set(values.subarray(2 * y * n, 2 * (y + 1) * n));
      run();
      values.set(this.#out, 2 * y * n);
    }
    for (let x = 0; x < n; x++) {
      for (let y = 0; y < n; y++) {
        const at = 2 * (y * n + x);
        this.#line[2 * y] = values[at] as number;
        this.#line[2 * y + 1] = values[at + 1] as number;
      }
      run();
      for (let y = 0; y < n; y++) {
        const at = 2 * (y * n + x);
        values[at] = this.#out[2 * y] as number;
        values[at + 1] = this.#out[2 * y + 1] as number;
      }
    }
  }
}

/** Hann window in both directions, row by row. */
export function hannWindow(sizePx: number): Float32Array {
  const line = Float32Array.from({ length: sizePx }, (_, at) => Math.sin((Math.PI * (at + 0.5)) / sizePx) ** 2);
  return Float32Array.from(
    { length: sizePx * sizePx },
    (_, at) => (line[at % sizePx] as number) * (line[Math.floor(at / sizePx)] as number),
  );
}
