import { isPresent, type Reading } from "./reading.ts";

/**
 * The readings that hold for one capture. What was read by comparison takes the place of what the capture alone could
 * tell of the same measure; only a comparison that came to nothing gives way to a value.
 */
export function holdingReadings<T extends Reading>(alone: readonly T[], together: readonly T[]): T[] {
  const named = (readings: readonly T[], name: string) => readings.find((reading) => reading.name === name);
  const gaveNothing = (reading: T) => !isPresent(reading);
  return [
    ...alone.filter((reading) => {
      const other = named(together, reading.name);
      return !other || (gaveNothing(other) && isPresent(reading));
    }),
    ...together.filter((reading) => {
      const other = named(alone, reading.name);
      return !other || !gaveNothing(reading) || !isPresent(other);
    }),
  ];
}
