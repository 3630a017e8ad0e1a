/** The picture area of a print, straightened: linear luminance Y, row by row, corners named as seen in the frame. */
export type PrintGrid = {
  readonly widthPx: number;
  readonly heightPx: number;
  /** null when the size of the print is not known */
  readonly pxPerMm: number | null;
  readonly data: Float32Array;
};
