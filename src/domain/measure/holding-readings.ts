import type { MeasureName } from "./catalogue.ts";
import { isPresent, type Present, type Reading, type Reliability } from "./reading.ts";

/**
 * The readings that hold for one capture. What was read by comparison takes the place of what the capture alone could
 * tell of the same measure, unless it tells less: a comparison that came to nothing gives way to a value, one less to be relied on to one
 * more, and one that is only a bound to a value that is none, unless that is weak. So a fair comparison of two captures leaves a firm reading of the border standing.
 * The strongest glare anywhere is the stronger of what the border shows and what the comparison does: of two lower bounds that are not weak the larger holds.
 * A direction comes from where its amount comes from, even where it is absent there.
 */
export function holdingReadings<T extends Reading>(alone: readonly T[], together: readonly T[]): T[] {
  const named = (readings: readonly T[], name: string) => readings.find((reading) => reading.name === name);
  const isCompared = (name: MeasureName): boolean => {
    const leads = LEADS[name] ?? name;
    const [compared, own] = [named(together, leads), named(alone, leads)];
    return compared !== undefined && (!own || !givesWay(compared, own));
  };
  return [
    ...alone.filter(({ name }) => !named(together, name) || !isCompared(name)),
    ...together.filter(({ name }) => !named(alone, name) || isCompared(name)),
  ];
}

/** Whose amount a direction is of. */
const LEADS: Partial<Readonly<Record<MeasureName, MeasureName>>> = { focusFalloffDegrees: "focusFalloffPercent" };

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
