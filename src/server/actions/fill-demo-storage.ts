import { randomUUID } from "node:crypto";
import { rmSync, writeFileSync } from "node:fs";
import path from "node:path";
import type { Outcome } from "#domain/outcome.ts";
import { displayInput } from "#domain/storage/display.ts";
import { listClimateImports } from "#drizzle/queries/climate.ts";
import { displaysOfPrint } from "#drizzle/queries/displays.ts";
import { findPrintByNumber } from "#drizzle/queries/prints.ts";
import { DEMO_DISPLAYS, DEMO_LOGGERS } from "../../../demo-collection/climate.ts";
import { lookAtLoggerFile } from "../climate/logger-file.ts";
import type { Context } from "../context.ts";
import { importClimate } from "./import-climate.ts";
import { logDisplay } from "./log-display.ts";

type Expected = <T>(what: string, outcome: Outcome<T>) => T;

/** A year's readings of two of the demo's places, by the way a logger's file takes, and what hung in the light. */
export async function fillDemoStorage(context: Context, placeIds: ReadonlyMap<string, number>, expected: Expected): Promise<void> {
  for (const { place, fileName, csv } of DEMO_LOGGERS) {
    const placeId = placeIds.get(place);
    if (placeId === undefined) throw new Error(`the demo has no place ${place}`);
    if (listClimateImports(context.db, placeId).some((held) => held.fileName === fileName)) continue;
    const file = path.join(context.folder.incoming, `${process.pid}-${randomUUID()}`);
    try {
      writeFileSync(file, csv());
      const { delimiter, guessed } = await lookAtLoggerFile(file);
      const { firstRow = 2, timeColumn = 1, temperatureColumn = 2, humidityColumn = 3 } = guessed;
      const mapping = {
        delimiter,
        firstRow,
        timeColumn,
        clockColumn: null,
        dateOrder: "year-month-day",
        timeZone: "UTC",
        temperatureColumn,
        temperatureUnit: "celsius",
        humidityColumn,
        decimalSign: "point",
      } as const;
      expected(fileName, await importClimate(context, { placeId, file, fileName, mapping }));
    } finally {
      rmSync(file, { force: true });
    }
  }
  for (const { objectNumber, ...days } of DEMO_DISPLAYS) {
    const print = findPrintByNumber(context.db, objectNumber);
    if (!print || displaysOfPrint(context.db, print.id).length > 0) continue;
    expected(objectNumber, logDisplay(context, { printId: print.id, input: displayInput.parse(days) }));
  }
}
