const figure = new Intl.NumberFormat("en-GB", { maximumFractionDigits: 1, useGrouping: false });

/** 88.5 mm */
export const millimetres = (lengthMm: number): string => `${figure.format(lengthMm)} mm`;

/** Width before height: 88.5 × 107.5 mm */
export const sizeInMm = (widthMm: number, heightMm: number): string => `${figure.format(widthMm)} × ${figure.format(heightMm)} mm`;
