import { isPresent, type Present, type Reading, type Reliability } from "./reading.ts";

/**
 * The readings that hold for one capture. What was read by comparison takes the place of what the capture alone could
 * tell of the same measure, unless it tells less: a comparison that came to nothing gives way to a value, one less to be relied on to one
 * more, and one that is only a bound to a value that is none, unless that is weak. So a fair comparison of two captures leaves a firm reading of the border standing.
 * The strongest glare anywhere is the stronger of what the border shows and what the comparison does: of two lower bounds that are not weak the larger holds.
 */
export function holdingReadings<T extends Reading>(alone: readonly T[], together: readonly T[]): T[] {
  const named = (readings: readonly T[], name: string) => readings.find((reading) => reading.name === name);
  return [
    ...alone.filter((reading) => {
      const compared = named(together, reading.name);
      return !compared || givesWay(compared, reading);
    }),
    ...together.filter((reading) => {
      const own = named(alone, reading.name);
      return !own || !givesWay(reading, own);
    }),
  ];
}

const RANK: Readonly<Record<Reliability, number>> = { weak: 0, fair: 1, firm: 2 };

function givesWay(compared: Reading, alone: Reading): boolean {
  if (!isPresent(alone)) return false;
  if (!isPresent(compared)) return true;
  if (LARGEST_ANYWHERE.has(alone.name) && isSureBound(alone) && isSureBound(compared)) return alone.value > compared.value;
  if (RANK[compared.reliability] < RANK[alone.reliability]) return true;
  return alone.reliability !== "weak" && compared.bound !== undefined && alone.bound === undefined;
}

const LARGEST_ANYWHERE: ReadonlySet<string> = new Set(["glarePeakDeltaL"]);

const isSureBound = ({ bound, reliability }: Present): boolean => bound === "lower" && reliability !== "weak";
