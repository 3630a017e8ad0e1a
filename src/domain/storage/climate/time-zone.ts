/** Turns what a logger's clock showed into a moment. */
export type LocalClock = {
  /**
   * Seconds since 1970-01-01T00:00:00Z, from the same count of the clock's own time; null where the clock never showed it, in the
   * hour that is left out in spring. The hour that comes twice in autumn is the first one, unless that does not lie after `after`.
   */
  readonly momentOf: (localSeconds: number, after: number | null) => number | null;
};

/** Null where the text is no time zone: “UTC”, “+01:00”, “UTC-5” or a name such as “Europe/Lisbon”. */
export function localClock(text: string): LocalClock | null {
  const zone = text.trim();
  const fixed = /^(?:UTC|GMT|Z)?\s*(?:([+-])(\d{1,2})(?::?([0-5]\d))?)?$/i.exec(zone);
  if (fixed && zone !== "") {
    const seconds = (fixed[1] === "-" ? -1 : 1) * (Number(fixed[2] ?? 0) * 3600 + Number(fixed[3] ?? 0) * 60);
    return Math.abs(seconds) > 14 * 3600 ? null : { momentOf: (local) => local - seconds };
  }
  const offset = offsetsOf(zone);
  if (!offset) return null;
  return {
    momentOf: (local, after) => {
      const [early, late] = [local - offset(local - DAY), local - offset(local + DAY)];
      // nearly every row: nothing changes around it
      if (early === late && early + offset(early) === local) return early;
      const fitting = [...new Set([early, late])].filter((moment) => moment + offset(moment) === local).sort((a, b) => a - b);
      return fitting.find((moment) => after === null || moment > after) ?? fitting[0] ?? null;
    },
  };
}

const DAY = 86_400;

/** Seconds east of UTC at a moment; a day on which nothing changes is asked for only once. */
function offsetsOf(zone: string): ((moment: number) => number) | null {
  const format = formatFor(zone);
  if (!format) return null;
  const ask = (moment: number): number => {
    const parts: Record<string, number> = {};
    for (const { type, value } of format.formatToParts(moment * 1000)) parts[type] = Number(value);
    const { year = 0, month = 1, day = 1, hour = 0, minute = 0, second = 0 } = parts;
    return Date.UTC(year, month - 1, day, hour, minute, second) / 1000 - moment;
  };
  const borders = new Map<number, number>();
  const atBorder = (day: number): number => {
    const held = borders.get(day);
    if (held !== undefined) return held;
    const asked = ask(day * DAY);
    borders.set(day, asked);
    return asked;
  };
  return (moment) => {
    const whole = Math.floor(moment);
    const day = Math.floor(whole / DAY);
    const offset = atBorder(day);
    return offset === atBorder(day + 1) ? offset : ask(whole);
  };
}

function formatFor(timeZone: string): Intl.DateTimeFormat | null {
  const figures = { year: "numeric", month: "numeric", day: "numeric", hour: "numeric", minute: "numeric", second: "numeric" } as const;
  try {
    return new Intl.DateTimeFormat("en-US", { timeZone, hourCycle: "h23", ...figures });
  } catch {
    return null;
  }
}
