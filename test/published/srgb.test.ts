import { describe, expect, test } from "vitest";
import { linearToSrgb, SRGB_LINEAR_8, SRGB_TO_XYZ_D50, srgbLinear16, srgbToLinear } from "#domain/measure/colour/srgb.ts";

describe("sRGB as in IEC 61966-2-1:1999", () => {
  test("code 128 is linear 0.21586 and code 10 is 0.00304, from the curve of the standard by hand", () => {
    expect(SRGB_LINEAR_8[128]).toBeCloseTo(0.21586, 5);
    expect(SRGB_LINEAR_8[10]).toBeCloseTo(0.00304, 5);
    expect(SRGB_LINEAR_8[0]).toBe(0);
    expect(SRGB_LINEAR_8[255]).toBe(1);
  });

  test("both pieces of the curve meet at 0.04045, within the digits the standard prints", () => {
    expect(srgbToLinear(0.04045)).toBeCloseTo(0.0031308, 7);
    expect(srgbToLinear(0.0404501)).toBeCloseTo(0.0031308, 6);
  });

  test("the curve and its inverse undo each other", () => {
    for (const value of [0, 0.002, 0.04, 0.05, 0.3, 0.77, 1]) expect(linearToSrgb(srgbToLinear(value))).toBeCloseTo(value, 6);
  });

  test("16 bits lie on the curve of 8 bits: code 257 n is code n", () => {
    for (const code of [1, 10, 128, 254]) expect(srgbLinear16()[code * 257]).toBeCloseTo(SRGB_LINEAR_8[code] as number, 7);
  });

  test("white is the D50 white of ICC.1 (0.9642, 1, 0.8249), within the last printed digit", () => {
    const row = (index: number) => SRGB_TO_XYZ_D50.slice(index * 3, index * 3 + 3).reduce((sum, value) => sum + value, 0);
    expect(row(0)).toBeCloseTo(0.9642, 3);
    expect(row(1)).toBeCloseTo(1, 4);
    expect(row(2)).toBeCloseTo(0.8249, 3);
  });

  test("the matrix is the one that ICC's sRGB v2 profiles carry in their colorant tags, to four digits", () => {
    const published = [0.4361, 0.3851, 0.1431, 0.2225, 0.7169, 0.0606, 0.0139, 0.0971, 0.7141];
    published.forEach((value, index) => {
      expect(SRGB_TO_XYZ_D50[index]).toBeCloseTo(value, 3);
    });
  });
});
