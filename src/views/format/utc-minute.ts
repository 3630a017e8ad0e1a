/** A moment to the minute in UTC, e.g. “2026-05-01 14:30”; seconds since 1970. */
export const utcMinute = (seconds: number): string => new Date(seconds * 1000).toISOString().slice(0, 16).replace("T", " ");
