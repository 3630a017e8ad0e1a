import { describe, expect, test } from "vitest";
import { listCaptureIds, listCapturesOfPrint, listOriginals, listTray } from "#drizzle/queries/captures.ts";
import { readCollection } from "#drizzle/queries/collection.ts";
import { listPlaces } from "#drizzle/queries/places.ts";
import { findPrintByNumber, listObjectNumbers } from "#drizzle/queries/prints.ts";
import { listSetUps } from "#drizzle/queries/set-ups.ts";
import { editCollection } from "#server/actions/edit-collection.ts";
import { fillDemoCollection } from "#server/actions/fill-demo-collection.ts";
import type { Context } from "#server/context.ts";
import { DEMO_PHOTOGRAPHS } from "../../demo-collection/finding-photographs.ts";
import { readDemoManifest } from "../../demo-collection/read-manifest.ts";
import { emptyCollection } from "../fixtures/collection.ts";

const manifest = readDemoManifest();
const STOPPED = new Error("stopped by the test");

describe("filling the demo collection", () => {
  test("stopped half-way and run twice more makes everything once", async () => {
    const context = emptyCollection();
    const stopAt = (done: number) => {
      if (done === 30) throw STOPPED;
    };
    await expect(fillDemoCollection(context, stopAt)).rejects.toBe(STOPPED);
    expect(listOriginals(context.db).length).toBeLessThan(manifest.captures.length / 2);

    const seen: number[] = [];
    await fillDemoCollection(context, (done, all) => {
      expect(all).toBe(manifest.captures.length);
      seen.push(done);
    });
    expect(seen.at(-1)).toBe(manifest.captures.length);
    const first = counts(context);
    const different = manifest.captures.filter(({ sameBytesAs }) => sameBytesAs === null).length;
    expect(first).toEqual({
      places: manifest.places.length,
      setUps: manifest.setUps.length,
      prints: manifest.prints.length,
      originals: different + DEMO_PHOTOGRAPHS.length,
      captures: different,
    });

    await fillDemoCollection(context, () => {});
    expect(counts(context)).toEqual(first);
    expect(readCollection(context.db)).toMatchObject({ name: manifest.name, objectNumberPattern: manifest.objectNumberPattern });

    for (const { objectNumber } of manifest.prints) {
      const print = findPrintByNumber(context.db, objectNumber);
      const wanted = manifest.captures.filter(({ prints, namesItsPrint }) => namesItsPrint && prints[0] === objectNumber);
      const held = listCapturesOfPrint(context.db, print?.id ?? 0);
      const said = ({ file, side, method }: { file: string; side: string; method: string | null }) => `${file} ${side} ${method}`;
      const as = held.map(({ original, side, method }) => said({ file: original.originalName, side, method })).sort();
      expect(as).toEqual(wanted.map(said).sort());
      expect(held.filter(({ setUpId }) => setUpId === null)).toEqual([]);
    }
    const waiting = manifest.captures.filter(({ namesItsPrint, sameBytesAs }) => !namesItsPrint && sameBytesAs === null);
    expect(
      listTray(context.db)
        .map(({ original }) => original.originalName)
        .sort(),
    ).toEqual(waiting.map(({ file }) => file).sort());
  }, 120_000);

  test("leaves the name that the keeper gave the collection meanwhile", async () => {
    const context = emptyCollection();
    await expect(
      fillDemoCollection(context, () => {
        throw STOPPED;
      }),
    ).rejects.toBe(STOPPED);
    const before = listObjectNumbers(context.db).length;
    expect(before).toBe(manifest.prints.length);
    editCollection(context, { name: "Mine now", objectNumberPattern: "{year}.{item:3}" });
    await expect(
      fillDemoCollection(context, () => {
        throw STOPPED;
      }),
    ).rejects.toBe(STOPPED);
    expect(readCollection(context.db).name).toBe("Mine now");
    expect(listObjectNumbers(context.db).length).toBe(before);
  });
});

function counts(context: Context) {
  return {
    places: listPlaces(context.db).length,
    setUps: listSetUps(context.db).length,
    prints: listObjectNumbers(context.db).length,
    originals: listOriginals(context.db).length,
    captures: listCaptureIds(context.db).length,
  };
}
