import type { Edtf, EdtfDate, EdtfEnd, EdtfMember, EdtfPart, EdtfYear, Qualifier } from "./edtf-grammar.ts";

export const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
] as const;

/** The codes 21 to 41 of the specification, from the first. */
const SEASONS = [
  "spring",
  "summer",
  "autumn",
  "winter",
  ...["northern", "southern"].flatMap((half) => ["spring", "summer", "autumn", "winter"].map((season) => `${half} ${season}`)),
  ...["first", "second", "third", "fourth"].map((which) => `${which} quarter of`),
  ...["first", "second", "third"].map((which) => `${which} third of`),
  ...["first", "second"].map((which) => `${which} half of`),
];
const FIRST_SEASON = 21;

/** A date as one would say it in a sentence. */
export function inWords(edtf: Edtf): string {
  if (edtf.kind === "date") return dateWords(edtf.date);
  if (edtf.kind === "moment") return `${dateWords(edtf.date)}, ${edtf.time}${zoneWords(edtf.zone)}`;
  if (edtf.kind === "interval") return intervalWords(edtf.from, edtf.to);
  return listed(edtf.members.map(memberWords), edtf.of === "one" ? "or" : "and");
}

function zoneWords(zone: string): string {
  if (zone === "") return "";
  return zone === "Z" ? " UTC" : ` UTC${zone.length === 3 ? `${zone}:00` : zone}`;
}

function intervalWords(from: EdtfEnd, to: EdtfEnd): string {
  if (typeof to === "object") {
    if (from === "open") return `until ${dateWords(to)}`;
    return `${from === "unknown" ? "unknown" : dateWords(from)} to ${dateWords(to)}`;
  }
  if (typeof from !== "object") return "";
  return to === "open" ? `from ${dateWords(from)} on` : `${dateWords(from)} to unknown`;
}

function memberWords({ from, to, span }: EdtfMember): string {
  if (from && to) return span ? `${dateWords(from)} to ${dateWords(to)}` : dateWords(from);
  if (from) return `${dateWords(from)} or later`;
  if (!to) return "";
  const following = yearAfter(to);
  return following === null ? `${dateWords(to)} or earlier` : `before ${following}`;
}

/** The year after a date that is only a plain year. */
function yearAfter({ year, month, season }: EdtfDate): number | null {
  const plain = !month && season === null && !year.qualifier && !year.negative && year.significant === null;
  return plain && /^\d{4}$/.test(year.digits) ? Number(year.digits) + 1 : null;
}

function dateWords(date: EdtfDate): string {
  const parts = [date.year, date.month, date.day].filter((part) => part !== null);
  const last = parts.at(-1)?.qualifier ?? null;
  const qualifier = date.season === null ? last : date.seasonQualifier;
  const whole = parts.every((part) => part.qualifier === qualifier);
  if (whole) return qualified(plainWords(date), qualifier);
  return `${plainWords(date)} (${partsInDoubt(date).join(", ")})`;
}

function qualified(plain: string, qualifier: Qualifier | null): string {
  if (qualifier === null) return plain;
  const words = /^\d+s$/.test(plain) ? `the ${plain}` : plain;
  if (qualifier === "uncertain") return `perhaps ${words}`;
  return qualifier === "approximate" ? `about ${words}` : `perhaps about ${words}`;
}

/** E.g. "month uncertain" where a qualifier covers only some parts of the date. */
function partsInDoubt(date: EdtfDate): string[] {
  const doubt = { uncertain: "uncertain", approximate: "approximate", both: "uncertain and approximate" } as const;
  const say = (name: string, qualifier: Qualifier | null | undefined) => (qualifier ? [`${name} ${doubt[qualifier]}`] : []);
  return [
    ...say("year", date.year.qualifier),
    ...say("month", date.month?.qualifier),
    ...say("day", date.day?.qualifier),
    ...say("season", date.seasonQualifier),
  ];
}

function plainWords({ year, month, day, season }: EdtfDate): string {
  if (season !== null) return withYear(`${SEASONS[season - FIRST_SEASON]}`, year);
  if (!month) return yearWords(year);
  const monthKnown = month.digits !== "XX";
  if (!day) return monthKnown ? withYear(monthWords(month), year) : withYear("some month of", year);
  if (day.digits === "XX") return withYear(monthKnown ? `some day in ${monthWords(month)}` : "some day of", year);
  const number = day.digits.includes("X") ? `day ${day.digits}` : String(Number(day.digits));
  return withYear(monthKnown ? `${number} ${monthWords(month)}` : `${number} of some month of`, year);
}

const monthWords = (month: EdtfPart): string => MONTHS[Number(month.digits) - 1] ?? `month ${month.digits}`;

function withYear(words: string, year: EdtfYear): string {
  if (!year.digits.includes("X")) return `${words} ${yearWords(year)}`;
  const which =
    year.digits === "XXXX" ? "an unknown year" : `some year ${isDecade(year.digits, year.negative) ? "in the " : ""}${yearWords(year)}`;
  return words.endsWith(" of") ? `${words} ${which}` : `${words}, ${which}`;
}

/** Years before 1 as people count them: year 0 is 1 BC (ISO 8601). */
function yearWords({ digits, negative, significant }: EdtfYear): string {
  const sure = significant === null ? digits : digits.slice(0, significant).padEnd(digits.length, "X");
  const ends = sure.includes("X") ? rangeWords(sure, negative) : one(digits, negative);
  return significant === null ? ends : `about ${one(digits, negative)}, ${ends}`;
}

function rangeWords(pattern: string, negative: boolean): string {
  if (pattern === "XXXX") return "an unknown year";
  if (isDecade(pattern, negative)) return `${Number(pattern.slice(0, 3))}0s`;
  if (!/^\d+X+$/.test(pattern)) return `year ${negative ? "-" : ""}${pattern}`;
  const ends = [pattern.replaceAll("X", "0"), pattern.replaceAll("X", "9")].map((digits) => one(digits, negative));
  return `between ${(negative ? ends.reverse() : ends).join(" and ")}`;
}

const isDecade = (pattern: string, negative: boolean): boolean => /^\d{3}X$/.test(pattern) && !negative;

/** There is no minus nought: -0000 stands for -0001 at the near end of a range. */
function one(digits: string, negative: boolean): string {
  const year = Number(digits);
  if (negative) return `${Math.max(year, 1) + 1} BC`;
  return year === 0 ? "1 BC" : String(year);
}

function listed(words: readonly string[], last: "or" | "and"): string {
  if (words.length < 2) return words[0] ?? "";
  return `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;
}
