import { describe, expect, test } from "vitest";
import { setUpInput } from "#domain/capture/set-up.ts";
import { collectionInput } from "#domain/collection/collection-input.ts";
import { findFormat } from "#domain/print/format.ts";
import { findProcess } from "#domain/print/process.ts";
import { printInput } from "#domain/print/schema.ts";
import { placeInput } from "#domain/storage/place-input.ts";
import { readDemoManifest } from "../../demo-collection/read-manifest.ts";

const manifest = readDemoManifest();

describe("the demo family's records", () => {
  test("are at least 24 prints in 6 formats and 6 processes", () => {
    expect(new Set(manifest.prints.map(({ objectNumber }) => objectNumber)).size).toBeGreaterThanOrEqual(24);
    expect(new Set(manifest.prints.map(({ fields }) => fields.formatId)).size).toBeGreaterThanOrEqual(6);
    expect(new Set(manifest.prints.map(({ fields }) => fields.processId)).size).toBeGreaterThanOrEqual(6);
  });

  test.each(manifest.prints)("of $objectNumber would be taken by the form", ({ objectNumber, fields, people, subjects }) => {
    const typed = { ...fields, objectNumber, people: people.join("\n"), subjects: subjects.join("\n") };
    const read = printInput.safeParse(typed);
    expect(read.error?.issues ?? []).toEqual([]);
    expect(objectNumber).toMatch(/^\d{4}\.\d{3}\.\d{2}$/);
    expect(Object.keys(fields).filter((field) => !(field in printInput.parse({ objectNumber })))).toEqual([]);
    expect(findFormat(fields.formatId ?? "")?.processIds).toContain(fields.processId);
    expect(findProcess(fields.processId ?? "")).not.toBeNull();
  });

  test("name only places that stand before them, and set-ups and a pattern that their forms would take", () => {
    const known = new Set<string>();
    for (const { key, parent, kind, name } of manifest.places) {
      expect(parent === null || known.has(parent)).toBe(true);
      expect(placeInput.safeParse({ kind, name }).success).toBe(true);
      known.add(key);
    }
    expect(manifest.prints.filter(({ place }) => !known.has(place))).toEqual([]);
    for (const setUp of manifest.setUps) expect(setUpInput.safeParse(setUp).error?.issues ?? []).toEqual([]);
    expect(collectionInput.safeParse(manifest).error?.issues ?? []).toEqual([]);
  });

  test.each(manifest.captures.flatMap(({ truth }) => truth))(
    "sheet of $objectNumber, as drawn, lies within its format's tolerance",
    (truth) => {
      const print = manifest.prints.find(({ objectNumber }) => objectNumber === truth.objectNumber);
      const format = findFormat(print?.fields.formatId ?? "");
      expect(format).not.toBeNull();
      if (!format) return;
      const lying = format.turnable && truth.sheetWidthMm > truth.sheetHeightMm !== format.sheetWidthMm > format.sheetHeightMm;
      const [widthMm, heightMm] = lying ? [format.sheetHeightMm, format.sheetWidthMm] : [format.sheetWidthMm, format.sheetHeightMm];
      expect(Math.abs(truth.sheetWidthMm - widthMm)).toBeLessThanOrEqual(format.toleranceMm);
      expect(Math.abs(truth.sheetHeightMm - heightMm)).toBeLessThanOrEqual(format.toleranceMm);
    },
  );
});
