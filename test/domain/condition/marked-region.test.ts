import { describe, expect, test } from "vitest";
import { areaMm2, outsideSheet, readRegions, rectangleOf, regionsAsTyped } from "#domain/condition/marked-region.ts";

const read = (text: string) => {
  const answer = readRegions(text);
  if ("problem" in answer) throw new Error(answer.problem);
  return answer.regions;
};

test("two corners are a rectangle whichever way they were drawn, more corners an outline", () => {
  const [drawnUp, outline] = read("52.5,48 12,30\n\n 0,0 10,0  10,8\n");
  expect(drawnUp && rectangleOf(drawnUp)).toEqual({ leftMm: 12, topMm: 30, widthMm: 40.5, heightMm: 18 });
  expect(drawnUp && areaMm2(drawnUp)).toBe(729);
  expect(outline && rectangleOf(outline)).toBe(null);
  expect(outline && areaMm2(outline)).toBe(40);
  expect(read("")).toEqual([]);
});

test("a four-cornered outline that stands askew is no rectangle, one typed corner by corner is", () => {
  expect(rectangleOf(read("1,0 9,1 8,9 0,8")[0] ?? [])).toBe(null);
  expect(rectangleOf(read("1,2 1,6 4,6 4,2")[0] ?? [])).toEqual({ leftMm: 1, topMm: 2, widthMm: 3, heightMm: 4 });
});

test("what was read can be typed again and means the same", () => {
  const regions = read("12,30 52.5,48\n0,0 10,0 10,8 3,9.25");
  expect(regionsAsTyped(regions)).toBe("12,30 52.5,48\n0,0 10,0 10,8 3,9.25");
});

describe("refused, with what to do", () => {
  test.each([
    ["one corner", "12,30", /opposite corner/],
    ["no numbers", "top left", /Write corners/],
    ["a negative place", "-1,3 5,5", /Write corners/],
    ["a comma for the decimals", "1,5,3 5,5", /Write corners/],
    ["a rectangle without area", "5,5 5,9", /no area/],
    ["an outline that crosses itself", "0,0 10,10 10,0 0,10", /crosses/],
    ["further away than any print is long", "0,0 3500,10", /3000 mm/],
    ["the second of two lines", "0,0 4,4\n7,7", /line 2 has one corner/],
    ["too many corners", Array.from({ length: 61 }, (_, i) => `${i},${i * i}`).join(" "), /60 corners/],
    ["too many lines", "0,0 1,1\n".repeat(31), /At most 30/],
  ])("%s", (_case, text, why) => {
    const answer = readRegions(text);
    expect("problem" in answer && answer.problem).toMatch(why);
  });

  test("a concave outline is no crossing one", () => {
    expect(areaMm2(read("0,0 10,0 10,10 5,4 0,10")[0] ?? [])).toBe(70);
  });
});

test("a region must lie on the sheet, by its tolerance and a pencil's width; without a size nothing is refused", () => {
  const sheet = { widthMm: 88, heightMm: 107, toleranceMm: 0.5 };
  const [at, beyond] = read("80,100 89,108\n80,100 90,104");
  expect(outsideSheet(at ?? [], sheet)).toBe(null);
  expect(outsideSheet(beyond ?? [], sheet)).toContain("88 mm wide and 107 mm high");
  expect(outsideSheet(beyond ?? [], null)).toBe(null);
});
