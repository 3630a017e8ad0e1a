import { expect, test } from "vitest";
import type { Quad } from "#domain/measure/picture.ts";
import { laidOverlays, UNITS_PER_MM } from "#server/overlays/laid-overlays.ts";
import type { Drawing, ShownOverlay } from "#views/parts/overlays.tsx";

const SHEET = { widthMm: 40, heightMm: 50 };
const CANVAS = { widthMm: 48, heightMm: 56, leftMm: 4, topMm: 3 };
/** 10 px to the mm, turned a quarter clockwise: the print's own top left is seen at the top right, at (600, 100). */
const TURNED: Quad = {
  topLeft: { x: 600, y: 100 },
  topRight: { x: 600, y: 500 },
  bottomRight: { x: 100, y: 500 },
  bottomLeft: { x: 100, y: 100 },
};

const laid = (drawing: Drawing): Drawing | null | undefined => {
  const overlay: ShownOverlay = { id: "glare", words: "", isOn: true, isHint: false, drawing };
  return laidOverlays([overlay], TURNED, SHEET, CANVAS)[0]?.drawing;
};

/** Where a place of the sheet lies on what is drawn. */
const at = (xMm: number, yMm: number) => ({ x: UNITS_PER_MM * (4 + xMm), y: UNITS_PER_MM * (3 + yMm) });
const close = (point: { x: number; y: number } | undefined, xMm: number, yMm: number) => {
  expect(point?.x).toBeCloseTo(at(xMm, yMm).x, 6);
  expect(point?.y).toBeCloseTo(at(xMm, yMm).y, 6);
};

test("an area of a capture that lay on its side is drawn where the print has it", () => {
  // 5 mm from the print's own left is 50 px below its own top left; 10 mm down is 100 px to the left
  const drawing = laid({
    kind: "areas",
    loops: [
      [
        [
          { x: 500, y: 150 },
          { x: 480, y: 150 },
          { x: 480, y: 170 },
        ],
      ],
    ],
  });
  if (drawing?.kind !== "areas") throw new Error("not areas");
  const [loop] = drawing.loops[0] ?? [];
  close(loop?.[0], 5, 10);
  close(loop?.[1], 5, 12);
  close(loop?.[2], 7, 12);
});

test("an arrow of a capture turned clockwise points back by the same quarter", () => {
  const drawing = laid({
    kind: "circles",
    circles: [{ at: { x: 600, y: 100 }, size: 0.5 }],
    arrow: { from: { x: 350, y: 300 }, degrees: 90 },
  });
  if (drawing?.kind !== "circles") throw new Error("not circles");
  close(drawing.circles[0]?.at, 0, 0);
  expect(drawing.circles[0]?.size).toBe(0.5);
  close(drawing.arrow?.from, 20, 25);
  // downwards in the frame is along the print's own top, to its right
  expect(drawing.arrow?.degrees).toBeCloseTo(0, 6);
});

test("the outline keeps which of its sides was seen, and the doubt of its corners its size in mm", () => {
  const sides = { top: "seen", right: "assumed", bottom: "seen", left: "cut-off" } as const;
  const drawing = laid({ kind: "outline", outline: { sheet: TURNED, image: null, sides }, cornerSpreadPx: 3 });
  if (drawing?.kind !== "outline") throw new Error("not an outline");
  close(drawing.outline.sheet.topLeft, 0, 0);
  close(drawing.outline.sheet.bottomRight, 40, 50);
  expect(drawing.outline.sides).toEqual(sides);
  expect(drawing.cornerSpreadPx).toBeCloseTo(0.3 * UNITS_PER_MM, 6);
});
