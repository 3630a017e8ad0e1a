const MOST_LETTERS = 100;

/** What is wrong with an object number, and what to write instead; null when it can be used. */
export function objectNumberProblem(number: string): string | null {
  if (number.trim() === "") return "Give the print its object number, e.g. 1978.004.12.";
  if (number.length > MOST_LETTERS) return `Keep the object number under ${MOST_LETTERS} letters.`;
  if (/\p{Cc}/u.test(number)) return "Write the object number on one line, without tabs.";
  if (!/[\p{L}\p{N}]/u.test(number)) return "An object number needs at least one letter or digit.";
  return null;
}

/** Longer runs of digits than this are not padded further; no catalogue was seen with more than 12. */
const PADDED_DIGITS = 20;

/** A key that sorts numbers as people count: 1978.4.9 before 1978.4.12, letters alike whether large or small. */
export const objectNumberSort = (number: string): string =>
  number
    .normalize("NFC")
    .toLowerCase()
    .replace(/\d+/g, (digits) => digits.replace(/^0+(?=\d)/, "").padStart(PADDED_DIGITS, "0"));

/** What is wrong with a pattern for object numbers; null when numbers can be proposed from it. */
export function patternProblem(pattern: string): string | null {
  const parts = readPattern(pattern);
  if (parts === null)
    return "Write the parts in braces, such as {year}.{item:3}; a part is a word and, after a colon, how many digits from 1 to 9.";
  if (!parts.some(isCounter)) return "Add a part that counts, such as {item:3}.";
  const touching = parts.some((part, place) => place > 0 && isCounter(part) && isVariable(parts[place - 1]));
  return touching ? "Put a sign between two parts, such as {year}.{item:3}, so that they can be told apart." : null;
}

/**
 * The next number that a pattern proposes: the highest of this year with its last counter one up,
 * so a number that was ever used is never proposed again and gaps stay gaps. Numbers that do not
 * follow the pattern are passed over. Empty when the pattern cannot be used.
 * @param pattern e.g. `{year}.{lot:3}.{item:2}`: `year` is this year, every other word counts, the digit says how many digits at least
 * @param existing every number ever given, those in the bin too
 * @param today YYYY-MM-DD
 */
export function nextObjectNumber(pattern: string, existing: readonly string[], today: string): string {
  const parts = readPattern(pattern);
  if (parts === null || patternProblem(pattern) !== null) return "";
  const year = today.slice(0, 4);
  const form = new RegExp(`^${parts.map((part) => formOf(part, year)).join("")}$`, "iu");
  let highest: number[] | null = null;
  for (const number of existing) {
    const counts = form.exec(number.trim())?.slice(1).map(Number);
    if (counts && (highest === null || isHigher(counts, highest))) highest = counts;
  }
  const next = highest === null ? parts.filter(isCounter).map(() => 1) : [...highest.slice(0, -1), (highest.at(-1) ?? 0) + 1];
  return parts.map((part) => write(part, year, isCounter(part) ? (next.shift() ?? 1) : 0)).join("");
}

/**
 * The number in the pattern's form, of whatever year, that a text starts with, as the pattern writes it; null when there is none.
 * Points, strokes, underscores and blanks count alike, since not every sign can stand in a file's name.
 */
export function numberInForm(text: string, pattern: string): string | null {
  const parts = readPattern(pattern);
  if (parts === null || patternProblem(pattern) !== null) return null;
  const form = new RegExp(`^${parts.map(anySigned).join("")}(?!\\d)`, "iu");
  const found = form.exec(text)?.slice(1);
  return found ? parts.map((part) => (part.kind === "text" ? part.text : (found.shift() ?? ""))).join("") : null;
}

type Part =
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "year" }
  | { readonly kind: "counter"; readonly digits: number };

const isCounter = (part: Part): boolean => part.kind === "counter";
const isVariable = (part: Part | undefined): boolean => part !== undefined && part.kind !== "text";

function readPattern(pattern: string): Part[] | null {
  const parts: Part[] = [];
  for (const piece of pattern.split(/(\{[^{}]*\})/)) {
    if (piece === "") continue;
    const named = /^\{([a-z]+)(?::([1-9]))?\}$/.exec(piece);
    if (named) parts.push(named[1] === "year" ? { kind: "year" } : { kind: "counter", digits: Number(named[2] ?? 1) });
    else if (/[{}]/.test(piece)) return null;
    else parts.push({ kind: "text", text: piece });
  }
  return parts;
}

/** What parts of a number are set off with; one stands for another in file names, where not every sign can stand. */
export const SIGNS = /[\s._/\\–-]+/u;

function anySigned(part: Part): string {
  if (part.kind === "text") return part.text.split(SIGNS).map(literally).join(SIGNS.source);
  return part.kind === "year" ? "(\\d{4})" : `(\\d{${part.digits},15})`;
}

const literally = (text: string): string => text.replace(/[\\^$.*+?()[\]{}|/]/g, "\\$&");

function formOf(part: Part, year: string): string {
  if (part.kind === "text") return literally(part.text);
  return part.kind === "year" ? year : "(\\d{1,15})";
}

function isHigher(counts: readonly number[], than: readonly number[]): boolean {
  const place = counts.findIndex((count, index) => count !== than[index]);
  return place >= 0 && (counts[place] ?? 0) > (than[place] ?? 0);
}

function write(part: Part, year: string, count: number): string {
  if (part.kind === "text") return part.text;
  return part.kind === "year" ? year : String(count).padStart(part.digits, "0");
}

/** Compares names as people count: 1978.4.9 before 1978.4.12. */
export const byNumbers = new Intl.Collator("en", { numeric: true });
