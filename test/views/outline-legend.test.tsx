import { expect, test } from "vitest";
import { OutlineLegend } from "#views/parts/outline-overlay.tsx";

const corner = { x: 0, y: 0 };
const outline = {
  sheet: { topLeft: corner, topRight: corner, bottomRight: corner, bottomLeft: corner },
  image: null,
  sides: { top: "seen", right: "seen", bottom: "seen", left: "seen" },
} as const;

test("below a bed the lines are said to show its sheets, below one print the sheet", () => {
  expect(String(OutlineLegend({ outlines: [outline, outline] }))).toContain("show the sheets as they were found, each with its number");
  expect(String(OutlineLegend({ outlines: [outline] }))).toContain("show the sheet as it was found");
});
