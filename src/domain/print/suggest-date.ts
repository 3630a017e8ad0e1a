import { isDay } from "./calendar.ts";
import { readEdtf } from "./edtf-grammar.ts";
import { neighbour, readSpokenDate, type Spoken } from "./spoken-date.ts";

/**
 * What a keeper or a museum's list probably means, as EDTF; null when nothing safe can be said.
 * Understands common English ways of writing dates and slips of notation.
 */
export function suggestEdtf(typed: string): string | null {
  const mended = mendNotation(typed);
  if (mended !== typed && readEdtf(mended)) return mended;
  const text = tidy(typed);
  return bounded(text) ?? alternatives(text) ?? span(text) ?? ambiguousDay(text) ?? single(text);
}

/** Whether a text says that there is no date. */
export function isUndated(typed: string): boolean {
  return /^(undated|not dated|no date|n ?d|s ?d|date unknown|unknown|date not known|not known|unknown date|date not recorded|\?+)$/.test(
    tidy(typed).replaceAll(".", ""),
  );
}

/** Blanks, small letters and the marks of the draft of 2012: u for X, ?~ for %, the words open and unknown. */
function mendNotation(typed: string): string {
  const text = typed
    .trim()
    .replace(/\s*([,/{}[\]]|\.\.)\s*/g, "$1")
    .replace(/\?~|~\?/g, "%")
    .replace(/\bopen\b/i, "..")
    .replace(/\bunknown\b(?=\/)|(?<=\/)unknown\b/i, "");
  return text.replace(/[\dxuX]{4}/g, (year) => year.replace(/[xu]/g, "X")).replace(/^y(?=-?\d)/, "Y");
}

function tidy(typed: string): string {
  return typed
    .normalize("NFKC")
    .toLowerCase()
    .replace(/[\u2010-\u2015\u2212]/g, "–")
    .replace(/[’‘]/g, "'")
    .replace(/\s+/g, " ")
    .replace(/[,;]? ?\(?(?:probably |possibly )?\b(re)?print(ed)?(?![a-z]).*$/, "")
    .replace(/^[[(]\s*(.*?)\s*[\])]$/, "$1")
    .trim()
    .replace(/[.,;]$/, "");
}

/** Before, by, after, since: open on one side. */
function bounded(text: string): string | null {
  const before = /^(?:before|prior to|earlier than|pre-?) ?(.+)$/.exec(text)?.[1];
  if (before) return edge(before, -1, (date) => `[..${date}]`);
  const after = /^(?:after|later than|post-?) ?(.+)$/.exec(text)?.[1];
  if (after) return edge(after, 1, (date) => `[${date}..]`);
  const until = /^(?:by|until|up to|not? later than|not after) (.+)$|^(.+?) or (?:earlier|before)$/.exec(text);
  if (until) return edge(until[1] ?? until[2] ?? "", 0, (date) => `[..${date}]`);
  const since = /^(?:since|not? earlier than|not before) (.+)$|^(?:from )?(.+?) (?:or (?:later|after)|onwards?)$/.exec(text);
  if (since) return edge(since[1] ?? since[2] ?? "", 0, (date) => `[${date}..]`);
  return null;
}

function edge(text: string, step: -1 | 0 | 1, write: (date: string) => string): string | null {
  const spoken = readSpokenDate(text);
  if (spoken === null || spoken.to !== null) return null;
  const date = step === 0 ? spoken.from : neighbour(spoken.from, step);
  return date === null ? null : write(`${date}${spoken.mark}`);
}

/** "1978 or 1979", "1978 and 1979", with commas before the last word. */
function alternatives(text: string): string | null {
  if (text.startsWith("between ")) return null;
  const word = /,? (or|and|&) /.exec(text);
  if (!word) return null;
  const dates = text.split(/, |,? (?:or|and|&) /).map(readSpokenDate);
  const written: string[] = [];
  for (const date of dates) {
    if (date === null || date.to !== null) return null;
    written.push(`${date.from}${date.mark}`);
  }
  return word[1] === "or" ? `[${written.join(",")}]` : `{${written.join(",")}}`;
}

/** "1976 to 1978", "between 1976 and 1978", "1976–8", "June - July 1957", "June 9-11, 1953". */
function span(text: string): string | null {
  const inner =
    /^between (.+) and (.+)$/.exec(text) ?? /^(?:from )?(.+?) (?:to|until|through) (.+)$/.exec(text) ?? /^(.+?) ?[–/-] ?(.+)$/.exec(text);
  if (!inner) return null;
  const [left, right] = [inner[1] ?? "", inner[2] ?? ""];
  const to = readSpokenDate(completed(left, right, text));
  const from = to && readSpokenDate(borrowed(left, right));
  if (!from || !to) return null;
  // "Winter 1978–79" is one winter over two years: EDTF has no safe way to say it.
  if (text.startsWith("winter") && !/-/.test(to.from)) return null;
  const mark = to.mark === "" ? from.mark : to.mark;
  return `${from.from}${from.mark}/${to.to ?? to.from}${mark}`;
}

/** The end of "1976–9" and "June 9-11, 1953" says only what changes. */
function completed(left: string, right: string, whole: string): string {
  const short = /(\d{4})$/.exec(left)?.[1];
  if (short && /^\d{1,2}$/.test(right) && right > short.slice(-right.length)) return short.slice(0, -right.length) + right;
  const month = /^([a-z]+) \d{1,2}$/.exec(left)?.[1];
  return month && /^\d{1,2},? \d{4}$/.test(right) && whole.startsWith(month) ? `${month} ${right}` : right;
}

/** The beginning of "9–11 June 1953" and "May - June 1944" leaves out what the end says. */
function borrowed(left: string, right: string): string {
  const year = /\d{4}$/.exec(right)?.[0];
  if (!year || /\d{4}/.test(left)) return left;
  return /^\d{1,2}$/.test(left) ? `${left} ${right.replace(/^\d{1,2} /, "")}` : `${left} ${year}`;
}

/** 3/11/2006 is two days, according to the country; 25/9/2005 is one. */
function ambiguousDay(text: string): string | null {
  const parts = /^(\d{1,2})([./-])(\d{1,2})\2(\d{4})$/.exec(text);
  if (!parts) return null;
  const [a, b] = [(parts[1] ?? "").padStart(2, "0"), (parts[3] ?? "").padStart(2, "0")];
  const days = [...new Set([`${parts[4]}-${b}-${a}`, `${parts[4]}-${a}-${b}`])].filter(isDay).sort();
  return days.length > 1 ? `[${days.join(",")}]` : (days[0] ?? null);
}

function single(text: string): string | null {
  const spoken = readSpokenDate(text);
  return spoken && written(spoken);
}

const written = ({ from, to, mark }: Spoken): string => (to === null ? `${from}${mark}` : `${from}${mark}/${to}${mark}`);
