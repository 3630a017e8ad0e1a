import { differenceCiede2000 } from "culori";
import { describe, expect, test } from "vitest";
import { colourDrift } from "#domain/condition/change/colour-drift.ts";
import { labOfLight } from "#domain/condition/change/colour-sheet.ts";
import { borderGain, densityRange, lossFromOne, whitesOf } from "#domain/condition/change/density.ts";
import { qualificationOf, standardOf, TRUENESS } from "#domain/condition/change/qualification.ts";
import type { Light, Tile } from "#domain/condition/change/tiles.ts";
import { expanded, verdictOn } from "#domain/condition/change/verdict.ts";

const grey = (light: number): Light => [light, light, light];
const tiles = (older: Light, newer: Light, count = 6): Tile[] => Array.from({ length: count }, () => ({ older, newer }));

describe("densities", () => {
  test("a border that sends back half the light has gained log10 2", () => {
    const whites = whitesOf(tiles(grey(0.8), [0.8, 0.8, 0.4]));
    if (!whites) throw new Error("no border");
    expect(borderGain(whites)[2]).toBeCloseTo(Math.log10(2), 9);
    expect(borderGain(whites)[0]).toBeCloseTo(0, 9);
  });

  test("places of density 1.0 that now have 0.7 have lost 0.3, whatever the exposure", () => {
    for (const exposure of [1, 0.6]) {
      const whites = whitesOf(tiles(grey(0.8), grey(0.8 * exposure)));
      const places = tiles(grey(0.08), grey(0.8 * exposure * 10 ** -0.7), 60);
      if (!whites) throw new Error("no border");
      expect(lossFromOne(places, whites, 1)).toBeCloseTo(0.3, 6);
    }
  });

  test("too few places near density 1.0 tell no loss", () => {
    const whites = whitesOf(tiles(grey(0.8), grey(0.8)));
    if (!whites) throw new Error("no border");
    expect(lossFromOne(tiles(grey(0.5), grey(0.5), 100), whites, 0)).toBeNull();
    expect(whitesOf(tiles(grey(0.8), grey(0.8), 3))).toBeNull();
  });

  test("the range of densities does not know the exposure", () => {
    const places = Array.from({ length: 100 }, (_, index) => ({
      older: grey(10 ** (-index / 99)),
      newer: grey(0.5 * 10 ** (-index / 99)),
    }));
    expect(densityRange(places, "newer")).toBeCloseTo(densityRange(places, "older") ?? 0, 9);
    expect(densityRange(places, "older")).toBeCloseTo(0.9, 1);
  });
});

test("drift of colour: middle of the tiles, ΔE00 as an independent library has it, and a hue that turns with its sign", () => {
  const [older, newer]: [Light, Light] = [
    [0.5, 0.3, 0.2],
    [0.55, 0.33, 0.2],
  ];
  const drift = colourDrift(tiles(older, newer));
  const [one, other] = [labOfLight(...older), labOfLight(...newer)];
  const lab = ([l, a, b]: readonly number[]) => ({ mode: "lab65" as const, l: l ?? 0, a: a ?? 0, b: b ?? 0 });
  expect(drift?.ciede2000).toBeCloseTo(differenceCiede2000()(lab(one), lab(other)), 6);
  expect(drift?.lightness).toBeCloseTo(other[0] - one[0], 9);
  expect((drift?.lightness ?? 0) ** 2 + (drift?.chroma ?? 0) ** 2 + (drift?.hue ?? 0) ** 2).toBeCloseTo(
    one.reduce((sum, value, index) => sum + (value - (other[index] as number)) ** 2, 0),
    6,
  ); // CIE 15: ΔE*² = ΔL*² + ΔC*² + ΔH*²
  expect(Math.sign(colourDrift(tiles(newer, older))?.hue ?? 0)).toBe(-Math.sign(drift?.hue ?? 0));
  expect(colourDrift(tiles(older, newer, 3))).toBeNull();
});

describe("verdict", () => {
  test("parts add as squares, times two (JCGM 100:2008)", () => {
    expect(expanded({ noise: 1, registration: 2, evenness: 2, method: 4 })).toBe(10);
    expect(standardOf(Math.sqrt(6))).toBeCloseTo(1, 12);
  });

  test.each([
    [1.01, "changed"],
    [-1.01, "changed"],
    [1, "within"],
    [-0.3, "within"],
  ] as const)("%d against an expanded uncertainty of 1 is “%s”", (difference, verdict) => {
    expect(verdictOn(difference, 1, ["target-checked", "phone-camera"])).toBe(verdict);
    expect(verdictOn(difference, 1, ["target-checked", "unknown"])).toBe("indication");
  });

  test("a passing target check is trusted most, a phone least, and every row says where it is from", () => {
    const order = ["target-checked", "flatbed-scanner", "phone-camera"] as const;
    for (const part of ["lightness", "colour", "besideBorder"] as const) {
      const found = order.map((each) => TRUENESS[each][part]);
      expect([...found].sort((a, b) => a - b)).toEqual(found);
    }
    for (const { source } of Object.values(TRUENESS)) expect(source).toMatch(/FADGI|own/);
    expect(qualificationOf(null, true)).toBe("unknown");
    expect(qualificationOf("phone-camera")).toBe("phone-camera");
    expect(qualificationOf("copy-stand-camera", true)).toBe("target-checked");
  });
});
