/** Captures of the tray that seem to show one print, by the object number in their file names; one without a number stands alone. */
export type Lot<T> = { readonly number: string | null; readonly captures: readonly T[] };

/**
 * The tray in lots and pages, in the order of the first of each lot. A page holds at most `most` captures, a lot is never divided
 * unless it is larger than a page.
 */
export function trayPages<T>(captures: readonly T[], numberOf: (capture: T) => string | null, most: number): Lot<T>[][] {
  const pages: Lot<T>[][] = [];
  let room = 0;
  for (const lot of inLots(captures, numberOf).flatMap((whole) => divided(whole, most))) {
    if (lot.captures.length > room) {
      pages.push([]);
      room = most;
    }
    pages.at(-1)?.push(lot);
    room -= lot.captures.length;
  }
  return pages;
}

function inLots<T>(captures: readonly T[], numberOf: (capture: T) => string | null): Lot<T>[] {
  const lots = new Map<string | symbol, { number: string | null; captures: T[] }>();
  for (const capture of captures) {
    const number = numberOf(capture);
    const key = number?.toLowerCase() ?? Symbol();
    const lot = lots.get(key) ?? { number, captures: [] };
    lot.captures.push(capture);
    lots.set(key, lot);
  }
  return [...lots.values()];
}

const divided = <T>({ number, captures }: Lot<T>, most: number): Lot<T>[] =>
  Array.from({ length: Math.ceil(captures.length / most) }, (_, part) => ({
    number,
    captures: captures.slice(part * most, (part + 1) * most),
  }));
