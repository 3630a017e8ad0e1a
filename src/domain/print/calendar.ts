/** Whether a year of the Gregorian calendar, reckoned backwards too, has a 29 February; year 0 has one (ISO 8601). */
const isLeapYear = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);

export function daysInMonth(year: number, month: number): number {
  if (month === 2) return isLeapYear(year) ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

/** Whether a text is a day that exists, as YYYY-MM-DD. */
export function isDay(text: string): boolean {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!parts) return false;
  const [year, month, day] = parts.slice(1).map(Number) as [number, number, number];
  return month >= 1 && month <= 12 && day >= 1 && day <= daysInMonth(year, month);
}

/**
 * A day as a text that sorts by time when compared letter by letter.
 *
 * - years 0 to 9999: `YYYY-MM-DD`.
 * - later years: `Y`, how many digits the year has (two digits), a colon, the year: `Y05:12000-01-01`.
 *   `Y` sorts after every digit, and a longer year after a shorter one.
 * - years before 0: `-`, 99 less how many digits the year has, a colon, every digit of the year taken
 *   from 9: -1985 is `-95:8014-01-01`. `-` sorts before every digit, and an earlier year before a later one.
 */
export function sortableDay(year: number, month: number, day: number): string {
  const digits = String(Math.abs(year)).padStart(4, "0");
  const rest = `-${twoDigits(month)}-${twoDigits(day)}`;
  if (year >= 0 && year <= 9999) return `${digits}${rest}`;
  if (year > 9999) return `Y${twoDigits(digits.length)}:${digits}${rest}`;
  return `-${twoDigits(99 - digits.length)}:${digits.replace(/\d/g, (digit) => String(9 - Number(digit)))}${rest}`;
}

export const twoDigits = (value: number): string => String(value).padStart(2, "0");
