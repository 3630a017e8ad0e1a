import { expect, test } from "vitest";
import type { Advice, RecaptureReason } from "#domain/recapture/recapture-line.ts";
import { SeeShared, SharedAdviceList, sharedAdvice } from "#views/parts/shared-advice.tsx";

const TIFF: Advice = { sentence: "Save TIFF, not JPEG.", source: "a rule" };
const LEVEL: Advice = { sentence: "Level the camera.", source: "geometry" };
const PLAN: Advice = { sentence: "Move the lamps.", source: "law of reflection", needsPlan: true };

const line = (...advice: Advice[]) => ({ reasons: [{ advice } as unknown as RecaptureReason] });

test("what three rows say alike is said above them once, the most frequent first; what two say, and what needs a plan, stays in the rows", () => {
  const lines = [line(TIFF, LEVEL, PLAN), line(TIFF, PLAN), line(TIFF, LEVEL, PLAN)];
  expect(sharedAdvice(lines)).toEqual([{ ...TIFF, rows: 3, number: 1 }]);
  const both = sharedAdvice([line(LEVEL), ...lines, line(TIFF)]);
  expect(both.map(({ sentence, rows }) => [sentence, rows])).toEqual([
    [TIFF.sentence, 4],
    [LEVEL.sentence, 3],
  ]);
  // one row that gives it for two reasons is one row
  expect(sharedAdvice([{ reasons: [...line(TIFF).reasons, ...line(TIFF).reasons] }, line(TIFF)])).toEqual([]);
});

test("a row leads to what stands above by its number, and every such place is there", () => {
  const shared = sharedAdvice([line(TIFF), line(TIFF), line(TIFF)]);
  const row = String(<SeeShared advice={[LEVEL, TIFF]} shared={shared} />);
  const [, place] = /href="#([^"]+)"/.exec(row) ?? [];
  expect(String(<SharedAdviceList shared={shared} />)).toContain(`id="${place}"`);
  expect(String(<SeeShared advice={[LEVEL]} shared={shared} />)).not.toContain("href");
});
