import { readdirSync } from "node:fs";
import path from "node:path";
import sharp from "sharp";
import { expect, test } from "vitest";
import { setUpInput } from "#domain/capture/set-up.ts";
import { targetCheckInput } from "#domain/target/check-input.ts";
import { driftOf } from "#domain/target/drift.ts";
import { findSetUpByName } from "#drizzle/queries/set-ups.ts";
import { latestCheck, listTargetChecks } from "#drizzle/queries/target-checks.ts";
import { createSetUp } from "#server/actions/create-set-up.ts";
import { fillDemoTargetChecks } from "#server/actions/fill-demo-target-checks.ts";
import { readTargetFile } from "#server/target/read-target-file.ts";
import { readDemoManifest } from "../../demo-collection/read-manifest.ts";
import { CARD_COLOURS, CARD_LAYOUT, CARD_REFERENCE } from "../../demo-collection/targets/card.ts";
import { DEMO_EVEN_SHEETS, DEMO_TARGET_CHECKS, DEMO_TARGET_PICTURES, type Faults } from "../../demo-collection/targets/checks.ts";
import { drawCard } from "../../demo-collection/targets/draw.ts";
import { emptyCollection } from "../fixtures/collection.ts";
import { xyzOf } from "../fixtures/drawn-target.ts";

const { layout, reference } = targetCheckInput.parse({
  layout: JSON.stringify(CARD_LAYOUT),
  reference: CARD_REFERENCE,
  referenceName: "card.txt",
  takenOn: "",
  note: "",
});

async function figures(file: string): Promise<Map<string, number>> {
  const read = await readTargetFile({ path: path.join(DEMO_TARGET_PICTURES, file), name: file, layout, reference, saidSheet: null });
  if (!read.ok || !read.value) throw new Error(`${file} was not read.`);
  return new Map(read.value.readings.flatMap((reading) => ("value" in reading ? [[reading.name, reading.value]] : [])));
}

/** Lightness by CIE 15, written out again. */
const lightness = (y: number) => (y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y);
const worstTone = ({ gain: [gain] }: Faults) =>
  Math.max(
    ...[...CARD_COLOURS]
      .filter(([id]) => id.startsWith("grey"))
      .map(([, colour]) => Math.abs(lightness(gain * xyzOf([...colour])[1]) - colour[0])),
  );

test("the pictures are those that the checks name", () => {
  expect(readdirSync(DEMO_TARGET_PICTURES).sort()).toEqual([...DEMO_TARGET_CHECKS, ...DEMO_EVEN_SHEETS].map(({ file }) => file).sort());
});

test("a picture shows the errors that it was drawn with, each by a formula of its own", async () => {
  for (const check of [DEMO_TARGET_CHECKS[0], DEMO_TARGET_CHECKS[6]]) {
    if (!check) throw new Error("The demo has fewer checks than this test holds against their truth.");
    const { faults, file } = check;
    const read = await figures(file);
    const [middle, corners] = faults.blurPx;
    // SFR = exp(-2π²σ²f²) is a half where f = 0.1874 / σ, and 0.5 cycles per pixel are 100 %
    expect(read.get("targetSfr50SharePercent")).toBeCloseTo((100 * Math.sqrt(Math.log(2) / 2)) / (Math.PI * corners) / 0.5, -0.5);
    expect(Math.abs((read.get("cornerSfr50OfMiddlePercent") ?? 0) - (100 * middle) / corners)).toBeLessThan(3);
    expect(Math.abs((read.get("targetMisregistrationPx") ?? 0) - faults.redShiftPx)).toBeLessThan(0.06);
    expect(Math.abs((read.get("toneResponseDeltaL") ?? 0) - worstTone(faults))).toBeLessThan(0.2);
    expect(read.get("whiteBalanceDeltaAb")).toBeLessThan(0.3);
  }
}, 60_000);

test("the files are those that the program draws", async () => {
  const [check] = DEMO_TARGET_CHECKS;
  if (!check) throw new Error("The demo has no checks.");
  const { data, widthPx } = drawCard(check);
  const kept = await sharp(path.join(DEMO_TARGET_PICTURES, check.file)).raw().toBuffer({ resolveWithObject: true });
  expect(kept.info.width).toBe(widthPx);
  const off = kept.data.reduce((sum, code, index) => sum + Math.abs(code - (data[index] ?? 0)), 0) / data.length;
  expect(off).toBeLessThan(2);
});

test("the stand's light has moved by its last check, the flatbed is steady, and running it twice keeps each once", async () => {
  const context = emptyCollection();
  for (const { key: _, figures: __, ...setUp } of readDemoManifest().setUps) createSetUp(context, setUpInput.parse(setUp));
  await fillDemoTargetChecks(context);
  await fillDemoTargetChecks(context);
  const idOf = (key: string) =>
    findSetUpByName(context.db, readDemoManifest().setUps.find((each) => each.key === key)?.name ?? "")?.id ?? 0;
  const drift = (key: string, measure: string) =>
    driftOf(
      listTargetChecks(context.db, idOf(key)).flatMap(({ takenOn, read }) => {
        const reading = read?.readings.find(({ name }) => name === measure);
        return reading && "value" in reading ? [{ day: takenOn, value: reading.value }] : [];
      }),
      0.1,
    )?.state;
  expect(listTargetChecks(context.db, idOf("stand-level"))).toHaveLength(8);
  expect(drift("stand-level", "whiteBalanceDeltaAb")).toBe("moved");
  expect(drift("flatbed-black", "whiteBalanceDeltaAb")).toBe("steady");
  expect(drift("flatbed-black", "toneResponseDeltaL")).toBe("steady");
  const evenness = latestCheck(context.db, idOf("stand-level"))?.read.readings.find(({ name }) => name === "lightnessUniformityPercent");
  expect(evenness).toMatchObject({ note: expect.stringContaining("From the even sheet of 12 September 2025.") });
}, 120_000);
