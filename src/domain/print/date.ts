import { boundsOf, type Impossible } from "./edtf-bounds.ts";
import { readEdtf } from "./edtf-grammar.ts";
import { inWords } from "./edtf-words.ts";
import { isUndated, suggestEdtf } from "./suggest-date.ts";

/** A date as EDTF with its bounds, or what is wrong with it in words for the keeper and what was probably meant. */
export type ReadDate =
  | {
      readonly ok: true;
      readonly edtf: string;
      /** first day it can mean, as text that sorts (see `sortableDay`); null when open or unknown */
      readonly earliest: string | null;
      readonly latest: string | null;
    }
  | {
      readonly ok: false;
      readonly problem: string;
      /** EDTF that this program can read; null when nothing safe can be proposed */
      readonly suggestion: string | null;
    };

const MOST_LETTERS = 300;

/**
 * Reads a date in EDTF, levels 0, 1 and 2 (Library of Congress specification of 4 February 2019;
 * "Level 2 is supported" in the sense of its section Compliance). Two limits of our own: a text of
 * 300 letters, a year of 15 digits. Blanks are no part of EDTF: trim what a person typed.
 */
export function parseDate(text: string): ReadDate {
  if (text.length > MOST_LETTERS) return refuse(`A date has at most ${MOST_LETTERS} letters.`, null);
  const edtf = readEdtf(text);
  if (edtf === null) return refuseWords(text);
  const bounds = boundsOf(edtf);
  if (typeof bounds === "string") return refuse(IMPOSSIBLE[bounds], likelyMeant(text, bounds));
  return { ok: true, edtf: text, ...bounds };
}

/**
 * Reads a date that a person typed: EDTF, or the words in which this program itself says one, e.g.
 * "about 1978". Other words are refused with a proposal, since they may mean something else.
 */
export function readTypedDate(text: string): ReadDate {
  const read = parseDate(text);
  if (read.ok || read.suggestion === null) return read;
  return sameWords(dateInWords(read.suggestion), text) ? parseDate(read.suggestion) : read;
}

const sameWords = (one: string, other: string): boolean => plain(one) === plain(other);
const plain = (words: string): string => words.trim().toLowerCase().replace(/\s+/g, " ");

/** A date in EDTF as one would say it, e.g. "about 1978"; a text that is not EDTF comes back as it is. */
export function dateInWords(edtf: string): string {
  const read = readEdtf(edtf);
  return read ? inWords(read) : edtf;
}

const IMPOSSIBLE: Readonly<Record<Impossible, string>> = {
  "no-such-day": "There is no such day in the calendar.",
  "ends-before-it-begins": "It ends before it begins.",
};

function refuseWords(text: string): ReadDate {
  if (isUndated(text)) return refuse("That says there is no date. Leave the field empty.", null);
  const suggestion = checked(suggestEdtf(text));
  if (suggestion === null) return refuse("This could not be read as a date.", null);
  if (/\b(re)?print(ed)?(?![a-z])/i.test(text)) {
    return refuse("Only the date of the picture goes here; say in the notes when it was printed.", suggestion);
  }
  return refuse("It is not written in a form that can be sorted.", suggestion);
}

/** An interval the other way round; the month of a day that does not exist; 1978-79 as two years. */
function likelyMeant(text: string, why: Impossible): string | null {
  if (why === "ends-before-it-begins") return checked(text.split("/").reverse().join("/"));
  return checked(/^(\d{4}-\d{2})-\d{2}$/.exec(text)?.[1] ?? suggestEdtf(text));
}

function checked(suggestion: string | null): string | null {
  const edtf = suggestion === null ? null : readEdtf(suggestion);
  return edtf !== null && typeof boundsOf(edtf) !== "string" ? suggestion : null;
}

const refuse = (problem: string, suggestion: string | null): ReadDate => ({ ok: false, problem, suggestion });
