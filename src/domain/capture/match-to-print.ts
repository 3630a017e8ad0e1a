import { SIGNS } from "../print/object-number.ts";

/**
 * The print that a file belongs to by its name: the longest object number that the name starts
 * with. Points, strokes, underscores and blanks count alike, and so do large and small letters. A
 * number must end where it ends: 1978.004.1 is not found in "1978.004.12_a.jpg".
 * @returns the number as the collection writes it; null when none fits, or two fit equally well
 */
export function matchToPrint(fileName: string, numbers: Iterable<string>): string | null {
  const name = levelled(fileName);
  let longest = "";
  let found: string[] = [];
  for (const number of numbers) {
    const start = levelled(number);
    if (start === "" || start.length < longest.length || !startsWithWhole(name, start)) continue;
    if (start.length > longest.length) found = [];
    longest = start;
    found.push(number);
  }
  if (found.length < 2) return found[0] ?? null;
  const literal = found.filter((number) => fileName.toLowerCase().startsWith(number.toLowerCase()));
  return literal.length === 1 ? (literal[0] ?? null) : null;
}

/** What stands in a file's name after a print's object number, its signs as written; null when the name does not start with the number. */
export function restAfterNumber(fileName: string, number: string): string | null {
  const [name, wanted] = [fileName.normalize("NFC").trim(), number.normalize("NFC").trim()];
  const parts = wanted.split(SIGNS).map((part) => part.replace(/[$()*+?[\]^{|}]/g, "\\$&"));
  const start = new RegExp(`^${parts.join(SIGNS.source)}`, "iu").exec(name)?.[0];
  return start === undefined || start === "" ? null : name.slice(start.length);
}

const ANY_SIGNS = new RegExp(SIGNS, "gu");

/** A stroke "/" cannot stand in a file name, so people write another sign for it. */
const levelled = (text: string): string => text.normalize("NFC").trim().toLowerCase().replaceAll(ANY_SIGNS, ".");

function startsWithWhole(name: string, start: string): boolean {
  if (!name.startsWith(start)) return false;
  const [last, next] = [start.at(-1) ?? "", name[start.length] ?? ""];
  if (/\d/.test(last)) return !/\d/.test(next);
  return !(/\p{L}/u.test(last) && /[\p{L}\d]/u.test(next));
}
