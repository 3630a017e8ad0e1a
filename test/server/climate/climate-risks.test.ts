import { expect, test } from "vitest";
import { deleteClimateImport, insertClimateImport, insertReading } from "#drizzle/queries/climate.ts";
import { insertPlace } from "#drizzle/queries/places.ts";
import { climateRisks } from "#server/climate/climate-risks.ts";
import { emptyCollection } from "../../fixtures/collection.ts";

test("the risk of a place is worked out once, and anew when readings come, and when they are taken back", () => {
  const context = emptyCollection();
  const placeId = insertPlace(context.db, { parentId: null, kind: "room", name: "Study" });
  const filled = (firstDay: string, temperatureCentiC: number) => {
    const importId = insertClimateImport(context.db, { placeId, readingCount: 48 });
    for (let hour = 0; hour < 48; hour++)
      insertReading(context.db, placeId, importId, {
        atSeconds: Date.parse(firstDay) / 1000 + hour * 3600,
        temperatureCentiC,
        humidityCentiPercent: 4000,
      });
    return importId;
  };
  const risk = () => climateRisks(context)(placeId, "chromogenic");
  const outside = () => {
    const told = risk();
    if (!told.known) throw new Error(told.reason);
    return told.value.outsideShare;
  };
  expect(risk()).toMatchObject({ known: false });
  filled("2026-03-03T00:00:00Z", 1000);
  const first = risk();
  const cool = outside();
  expect(risk()).toBe(first);
  const warm = filled("2026-03-01T00:00:00Z", 3500);
  expect(risk()).not.toBe(first);
  expect(outside()).toBeGreaterThan(cool);
  deleteClimateImport(context.db, { id: warm, placeId });
  expect(outside()).toBe(cool);
});
