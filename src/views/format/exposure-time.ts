/** An exposure time as cameras show it: “1/125 s”, “0.5 s”. */
export const exposureInWords = (seconds: number): string =>
  seconds >= 0.3 ? `${Number(seconds.toPrecision(3))} s` : `1/${Math.round(1 / seconds)} s`;
