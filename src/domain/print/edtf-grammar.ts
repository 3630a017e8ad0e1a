/**
 * The grammar of EDTF: Library of Congress, Extended Date/Time Format (EDTF) Specification,
 * 4 February 2019, levels 0, 1 and 2. Only the form of the text is read here; whether such a day
 * exists is for edtf-bounds.ts.
 *
 *   expression := moment | date | interval | set
 *   moment     := YYYY-MM-DD T hh:mm:ss zone?           zone := Z | ±hh | ±hh:mm
 *   interval   := end "/" end                           end  := date | ".." (open) | "" (unknown)
 *   set        := "[" members "]" (one of) | "{" members "}" (all of)
 *   members    := ( ".." date | span ) ( "," span )* ".."?         span := date | date ".." date
 *   date       := longYear | year ( "-" month ( "-" day )? | "-" season )?
 *   longYear   := "Y" "-"? digits ( "E" digits )? ( "S" digits | qualifier )?
 *   year       := qualifier? "-"? four of 0–9 and X qualifier? | "-"? four digits "S" digit
 *   month, day := qualifier? two of 0–9 and X qualifier?
 *   season     := 21 to 41 qualifier?
 *   qualifier  := "?" uncertain | "~" approximate | "%" both
 *
 * A qualifier right of a part covers it and all parts left of it; left of a part, that part alone.
 */
export type Edtf =
  | { readonly kind: "date"; readonly date: EdtfDate }
  | { readonly kind: "moment"; readonly date: EdtfDate; readonly time: string; readonly zone: string }
  | { readonly kind: "interval"; readonly from: EdtfEnd; readonly to: EdtfEnd }
  | { readonly kind: "set"; readonly of: "one" | "all"; readonly members: readonly EdtfMember[] };

export type EdtfEnd = EdtfDate | "open" | "unknown";

/** One date of a set, or a span of it; an open side has no date. */
export type EdtfMember = { readonly from: EdtfDate | null; readonly to: EdtfDate | null; readonly span: boolean };

export type EdtfDate = {
  readonly year: EdtfYear;
  readonly month: EdtfPart | null;
  readonly day: EdtfPart | null;
  /** 21 to 41; never together with a month */
  readonly season: number | null;
  readonly seasonQualifier: Qualifier | null;
};

export type EdtfYear = EdtfPart & {
  readonly negative: boolean;
  /** how many digits from the left are sure; null when all are */
  readonly significant: number | null;
};

/** Digits as written, with X for an unspecified one; a year may be longer than four. */
export type EdtfPart = { readonly digits: string; readonly qualifier: Qualifier | null };

export type Qualifier = "uncertain" | "approximate" | "both";

const DATE =
  /^(?<yearLeft>[?~%])?(?<sign>-)?(?<year>[\dX]{4})(?:S(?<significant>[1-4]))?(?<yearRight>[?~%])?(?:-(?<season>2[1-9]|3\d|4[01])(?<seasonRight>[?~%])?|-(?<monthLeft>[?~%])?(?<month>[\dX]{2})(?<monthRight>[?~%])?(?:-(?<dayLeft>[?~%])?(?<day>[\dX]{2})(?<dayRight>[?~%])?)?)?$/;
const LONG_YEAR = /^Y(?<sign>-)?(?<year>[1-9]\d*)(?:E(?<exponent>[1-9]\d?))?(?:S(?<significant>[1-9]\d?)|(?<right>[?~%]))?$/;
const MOMENT = /^(?<day>\d{4}-\d{2}-\d{2})T(?<time>(?:[01]\d|2[0-3]):[0-5]\d:[0-5]\d)(?<zone>Z|[+-](?:0\d|1[0-4])(?::[0-5]\d)?)?$/;

/** Beyond this a year would not be kept exactly as a number. */
const MOST_YEAR_DIGITS = 15;

/** Reads the form of an EDTF text; null when it does not have one. */
export function readEdtf(text: string): Edtf | null {
  const first = text[0];
  const last = text.at(-1);
  if (first === "[" && last === "]") return readSet("one", text.slice(1, -1));
  if (first === "{" && last === "}") return readSet("all", text.slice(1, -1));
  if (text.includes("/")) return readInterval(text);
  const moment = MOMENT.exec(text)?.groups;
  if (moment) return readMoment(moment.day ?? "", moment.time ?? "", moment.zone ?? "");
  const date = readDate(text);
  return date && { kind: "date", date };
}

function readSet(of: "one" | "all", inside: string): Edtf | null {
  const texts = inside.split(",");
  const members: EdtfMember[] = [];
  for (const [place, text] of texts.entries()) {
    const member = readMember(text, place === 0, place === texts.length - 1);
    if (!member) return null;
    members.push(member);
  }
  return { kind: "set", of, members };
}

/** Only the first member may be open to the past and only the last to the future. */
function readMember(text: string, first: boolean, last: boolean): EdtfMember | null {
  const [left, right, ...more] = text.split("..");
  if (left === undefined || more.length > 0) return null;
  const from = left === "" ? null : readDate(left);
  if (right === undefined) return from && { from, to: from, span: false };
  const to = right === "" ? null : readDate(right);
  const fromHolds = left === "" ? first : from !== null;
  const toHolds = right === "" ? last : to !== null;
  return fromHolds && toHolds && (from || to) ? { from, to, span: true } : null;
}

function readInterval(text: string): Edtf | null {
  const [left, right, ...more] = text.split("/");
  if (left === undefined || right === undefined || more.length > 0) return null;
  const from = readEnd(left);
  const to = readEnd(right);
  const hasDate = typeof from === "object" || typeof to === "object";
  return from && to && hasDate ? { kind: "interval", from, to } : null;
}

function readEnd(text: string): EdtfEnd | null {
  if (text === "") return "unknown";
  return text === ".." ? "open" : readDate(text);
}

function readMoment(day: string, time: string, zone: string): Edtf | null {
  const date = readDate(day);
  return date && { kind: "moment", date, time, zone };
}

function readDate(text: string): EdtfDate | null {
  const long = LONG_YEAR.exec(text)?.groups;
  if (long) return readLongYear(long);
  const parts = DATE.exec(text)?.groups;
  if (!parts || (parts.sign && parts.year === "0000")) return null;
  if (parts.significant && (parts.month || parts.season || parts.yearLeft || parts.yearRight || parts.year?.includes("X"))) return null;
  const right = [parts.yearRight, parts.seasonRight ?? parts.monthRight, parts.dayRight];
  const left = [parts.yearLeft, parts.monthLeft, parts.dayLeft];
  if (left.some((mark, place) => mark && right[place])) return null;
  const part = (digits: string | undefined, place: number): EdtfPart | null =>
    digits === undefined ? null : { digits, qualifier: joined([left[place], ...right.slice(place)]) };
  const year = part(parts.year, 0);
  return (
    year && {
      year: { ...year, negative: parts.sign === "-", significant: parts.significant ? Number(parts.significant) : null },
      month: part(parts.month, 1),
      day: part(parts.day, 2),
      season: parts.season ? Number(parts.season) : null,
      seasonQualifier: joined([parts.seasonRight]),
    }
  );
}

/** The letter Y stands only before a year of more than four digits. */
function readLongYear(parts: Record<string, string | undefined>): EdtfDate | null {
  const zeros = Number(parts.exponent ?? 0);
  const digits = `${parts.year ?? ""}${"0".repeat(zeros)}`;
  const significant = parts.significant ? Number(parts.significant) : null;
  if (digits.length <= 4 || digits.length > MOST_YEAR_DIGITS || (significant ?? 0) > digits.length) return null;
  const year = { digits, qualifier: joined([parts.right]), negative: parts.sign === "-", significant };
  return { year, month: null, day: null, season: null, seasonQualifier: null };
}

function joined(marks: readonly (string | undefined)[]): Qualifier | null {
  const uncertain = marks.some((mark) => mark === "?" || mark === "%");
  const approximate = marks.some((mark) => mark === "~" || mark === "%");
  if (uncertain) return approximate ? "both" : "uncertain";
  return approximate ? "approximate" : null;
}
