import { describe, expect, test } from "vitest";
import { sidesSeen } from "#domain/measure/geometry/sides-seen.ts";
import { cornersOf } from "#domain/measure/lines.ts";
import { findOutlines } from "#domain/measure/outline/outline.ts";
import type { Quad } from "#domain/measure/picture.ts";
import { sharpened } from "../../../fixtures/edits.ts";
import type { BackgroundKind } from "../../../fixtures/picture-scenes.ts";
import {
  contextFor,
  contextOf,
  drawPicture,
  INSTANT,
  type PoseOptions,
  pictureOf,
  poseOf,
  type Scene,
} from "../../../fixtures/pictures.ts";

const FRAME = { widthPx: 580, heightPx: 640, bedPxPerMm: 4 } as const;

/** An instant print at 100 ppi in the middle of the frame, unless told otherwise. */
const instant = (pose: Partial<PoseOptions> = {}) => ({
  ...INSTANT,
  pose: poseOf({ ...INSTANT, ppi: 100, centre: { x: 290, y: 320 }, ...pose }),
});
const sceneOf = (scene: Partial<Scene>): Scene => ({ ...FRAME, prints: [instant()], ...scene });

/** How far the worst corner lies from where it was drawn, px. */
function worstCorner(quad: Quad | null | undefined, truth: Quad | undefined): number {
  if (!quad || !truth) return Number.POSITIVE_INFINITY;
  const expected = cornersOf(truth);
  return Math.max(
    ...cornersOf(quad).map((corner, index) => Math.hypot(corner.x - (expected[index]?.x ?? 0), corner.y - (expected[index]?.y ?? 0))),
  );
}

describe("one print", () => {
  test.each<BackgroundKind>(["dark-cloth", "wood-grain", "patterned-table", "grey-card"])(
    "is found on %s, its corners to a third of a pixel",
    (background) => {
      const { picture, truths } = drawPicture(
        sceneOf({ background, prints: [instant({ turnDeg: 4, keystoneAcross: 0.06, keystoneDown: -0.03 })], light: { fallOff: 0.2 } }),
      );
      const found = findOutlines(picture, contextFor(INSTANT));
      expect(found).toHaveLength(1);
      expect(worstCorner(found[0]?.sheet, truths[0]?.sheet)).toBeLessThan(0.35);
      expect(worstCorner(found[0]?.image, truths[0]?.image)).toBeLessThan(0.35);
      expect(found[0]?.sides).toEqual({ top: "seen", right: "seen", bottom: "seen", left: "seen" });
    },
  );

  test("cut by the frame is not taken for its own picture, though what is left of that has the sheet's proportions", () => {
    // 71 of 75 mm of the sheet are seen, and so 69 × 46 mm of the picture; by the record the sheet is 75 × 50 mm and has no border
    const size = { widthMm: 50, heightMm: 75 };
    const pose = poseOf({ ...size, ppi: 150, centre: { x: 220, y: 80 + (37.5 * 150) / 25.4 } });
    const print = { ...size, border: { left: 2, right: 2, top: 2, bottom: 2 }, pose };
    const { picture, truths } = drawPicture({
      widthPx: 440,
      heightPx: Math.round(80 + (71 * 150) / 25.4),
      prints: [print],
      background: "wood-grain",
    });
    const found = findOutlines(picture, contextFor(size));
    expect(found).toHaveLength(1);
    expect(found[0]?.sides.bottom).toBe("cut-off");
    expect(Math.abs((found[0]?.sheet.topLeft.x ?? 0) - (truths[0]?.sheet.topLeft.x ?? 0))).toBeLessThan(0.5);
  });

  test("fed in crooked and cropped to the sheet's own size, it lies as its picture does, and no side of it is whole", () => {
    // 60 × 40 mm at 200 ppi, turned by 2°, of paper as white as the lid: of 472 px across, 472 · sin 2° = 16 px of 315 down do not fit
    const size = { widthMm: 60, heightMm: 40 };
    const print = { ...size, border: { left: 3, right: 3, top: 3, bottom: 3 }, paper: [0.88, 0.87, 0.85] } as const;
    const pose = poseOf({ ...size, ppi: 200, centre: { x: 238, y: 156 }, turnDeg: 2 });
    const { picture, truths } = drawPicture({ widthPx: 472, heightPx: 315, prints: [{ ...print, pose }], background: "white-lid" });
    const context = { ...contextOf({ sheetWidthMm: 60, sheetHeightMm: 40 }), claimedPpiX: 200, claimedPpiY: 200 };
    const [found] = findOutlines(picture, context);
    expect(worstCorner(found?.sheet, truths[0]?.sheet)).toBeLessThan(2);
    expect(sidesSeen(picture, found ?? null, context)[0]).toMatchObject({
      value: 0,
      reliability: "fair",
      note: expect.stringContaining("outside the frame"),
    });
  });

  test("fed in crooked, an instant print is laid round its wide foot, and its corners are told to be less sure", () => {
    // 88.5 × 107.5 mm at 120 ppi are 418 × 508 px; its picture lies 8.75 mm, 41 px, above the middle of the sheet
    for (const [turnDeg, off] of [
      [1.8, 0],
      [-2, 3],
    ] as const) {
      const print = { ...instant({ ppi: 120, centre: { x: 208.5 + off, y: 253.5 - off }, turnDeg }), paper: [0.88, 0.87, 0.85] } as const;
      const { picture, truths } = drawPicture({ widthPx: 418, heightPx: 508, prints: [print], background: "white-lid" });
      const context = contextOf({ sheetWidthMm: 88.5, sheetHeightMm: 107.5, claimedPpiX: 120, claimedPpiY: 120 });
      const [found] = findOutlines(picture, context);
      expect(Object.values(found?.sides ?? {})).toEqual(["assumed", "assumed", "assumed", "assumed"]);
      expect(found?.sheet.topLeft.x, "it is laid askew").not.toBe(-0.5);
      expect(worstCorner(found?.sheet, truths[0]?.sheet)).toBeLessThan(8);
      // 2 % of 508 px, and evenly up to 41 px
      expect(found?.cornerSpreadPx).toBeGreaterThan(20);
      expect(found?.cornerSpreadPx).toBeLessThan(30);
    }
  });

  test.each([
    ["dark", [0.2, 0.17, 0.14]],
    ["pale", [0.75, 0.74, 0.72]],
  ] as const)(
    "cropped to a sheet without border, it keeps its four sides though a painting leans on the %s wall that it shows",
    (_, wall) => {
      const painting = { widthMm: 34, heightMm: 22 };
      for (const turnDeg of [1.2, 2]) {
        const pose = poseOf({ ...painting, ppi: 200, centre: { x: 225, y: 150 }, turnDeg });
        const { picture } = drawPicture({ widthPx: 472, heightPx: 315, prints: [{ ...painting, pose }], ground: wall });
        const context = { ...contextOf({ sheetWidthMm: 60, sheetHeightMm: 40 }), claimedPpiX: 200, claimedPpiY: 200 };
        const [found] = findOutlines(picture, context);
        expect(found?.sheet.bottomRight).toEqual({ x: 471.5, y: 314.5 });
        expect(sidesSeen(picture, found ?? null, context)[0]).toMatchObject({ value: 4, reliability: "fair" });
      }
    },
  );

  test("is found without any size being known", () => {
    const { picture, truths } = drawPicture(sceneOf({ background: "wood-grain" }));
    const [found] = findOutlines(picture, contextOf());
    expect(worstCorner(found?.sheet, truths[0]?.sheet)).toBeLessThan(0.35);
    expect(worstCorner(found?.image, truths[0]?.image)).toBeLessThan(0.35);
  });

  test.each([91, 180, -88])("turned by %d° has its corners named as they are seen", (turnDeg) => {
    const { picture, truths } = drawPicture(sceneOf({ prints: [instant({ turnDeg })] }));
    const [found] = findOutlines(picture, contextFor(INSTANT));
    expect(worstCorner(found?.sheet, truths[0]?.sheet)).toBeLessThan(0.35);
    expect(found?.sheet.topLeft.x).toBeLessThan(found?.sheet.topRight.x ?? 0);
    expect(found?.sheet.topLeft.y).toBeLessThan(found?.sheet.bottomLeft.y ?? 0);
  });

  test("with a very pale picture still has its picture told from the border", () => {
    const { picture, truths } = drawPicture(sceneOf({ prints: [{ ...instant(), content: "pale-wall" }] }));
    const [found] = findOutlines(picture, contextFor(INSTANT));
    expect(worstCorner(found?.image, truths[0]?.image)).toBeLessThan(0.5);
  });

  test("without a border has no picture apart from its sheet", () => {
    const size = { widthMm: 89, heightMm: 108 };
    const print = { ...size, pose: poseOf({ ...size, ppi: 100, centre: { x: 290, y: 320 }, turnDeg: -3 }) };
    const { picture, truths } = drawPicture(sceneOf({ prints: [print] }));
    const [found] = findOutlines(picture, contextFor(size));
    expect(worstCorner(found?.sheet, truths[0]?.sheet)).toBeLessThan(0.5);
    expect(found?.image).toBeNull();
  });

  test("reads the same from 16 bits as from 8", () => {
    const scene = sceneOf({ prints: [instant({ turnDeg: 2 })] });
    const [of8] = findOutlines(drawPicture(scene).picture, contextFor(INSTANT));
    const [of16] = findOutlines(drawPicture({ ...scene, bits: 16 }).picture, contextFor(INSTANT));
    expect(worstCorner(of8?.sheet, of16?.sheet)).toBeLessThan(0.1);
  });
});

describe("a print that the frame cuts", () => {
  test("has the side that is gone marked as cut off, lying on the frame", () => {
    const { picture } = drawPicture(sceneOf({ prints: [instant({ centre: { x: 290, y: 150 } })] }));
    const [found] = findOutlines(picture, contextFor(INSTANT));
    expect(found?.sides).toEqual({ top: "cut-off", right: "seen", bottom: "seen", left: "seen" });
    expect(found?.sheet.topLeft.y).toBe(-0.5);
  });

  test("by one corner keeps its true corners, outside the frame", () => {
    const { picture, truths } = drawPicture(sceneOf({ prints: [instant({ centre: { x: 192, y: 230 }, turnDeg: 8 })] }));
    expect(truths[0]?.sheet.bottomLeft.x, "the case needs a corner outside the frame").toBeLessThan(-0.5);
    const [found] = findOutlines(picture, contextFor(INSTANT));
    expect(worstCorner(found?.sheet, truths[0]?.sheet)).toBeLessThan(0.5);
    expect(found?.sides.left).toBe("cut-off");
    expect(found?.sides.right).toBe("seen");
  });
});

describe("a file cropped to the sheet", () => {
  const cropped = { widthPx: 418, heightPx: 508, prints: [instant({ ppi: 120, centre: { x: 208.5, y: 253.5 } })] };

  test("has the frame for its sheet, all sides assumed, and its picture measured", () => {
    const { picture, truths } = drawPicture(cropped);
    const [found] = findOutlines(picture, contextFor(INSTANT));
    expect(found?.sides).toEqual({ top: "assumed", right: "assumed", bottom: "assumed", left: "assumed" });
    expect(found?.sheet.bottomRight).toEqual({ x: 417.5, y: 507.5 });
    expect(worstCorner(found?.image, truths[0]?.image)).toBeLessThan(0.35);
  });

  test("and without a border is believed when its claimed scale gives the size in the record, and not otherwise", () => {
    const size = { widthMm: 89, heightMm: 127 };
    const { picture } = drawPicture({
      widthPx: 420,
      heightPx: 600,
      prints: [{ ...size, pose: poseOf({ ...size, ppi: 120, centre: { x: 209.5, y: 299.5 } }) }],
    });
    expect(findOutlines(picture, contextFor(size, { claimedPpiX: 120, claimedPpiY: 120 }))).toHaveLength(1);
    expect(findOutlines(picture, contextFor(size, { claimedPpiX: 300, claimedPpiY: 300 }))).toEqual([]);
    expect(findOutlines(picture, contextFor(size))).toEqual([]);
  });
});

describe("a sheet that all but fills the frame", () => {
  test("is found by the thin strip of ground that is left around it", () => {
    const print = instant({ ppi: 120, centre: { x: 217, y: 262 }, turnDeg: 0.4 });
    const { picture, truths } = drawPicture({ widthPx: 436, heightPx: 526, prints: [print], ground: [0.4, 0.4, 0.4] });
    const [found] = findOutlines(picture, contextFor(INSTANT));
    expect(Object.values(found?.sides ?? {})).toEqual(["seen", "seen", "seen", "seen"]);
    expect(worstCorner(found?.sheet, truths[0]?.sheet)).toBeLessThan(0.5);
  });
});

describe("several prints on one bed", () => {
  test("are each found, in reading order", () => {
    const places = [
      { x: 200, y: 260 },
      { x: 560, y: 240 },
      { x: 930, y: 270 },
      { x: 210, y: 700 },
    ];
    const prints = places.map((centre, index) => instant({ ppi: 85, centre, turnDeg: index === 2 ? 90 : 1.5 * index - 2 }));
    const { picture, truths } = drawPicture({ widthPx: 1150, heightPx: 950, bedPxPerMm: 4, prints });
    const found = findOutlines(picture, contextOf());
    expect(found).toHaveLength(4);
    found.forEach((outline, index) => {
      expect(worstCorner(outline.sheet, truths[index]?.sheet)).toBeLessThan(0.5);
      expect(worstCorner(outline.image, truths[index]?.image)).toBeLessThan(0.5);
    });
  });
});

test("a print on a mount of its own proportions is found on the mount where the record has its sizes", () => {
  for (const seed of [1, 2, 3]) {
    const ppi = 85;
    const centre = { x: 270, y: 320 };
    const [widthMm, heightMm] = [INSTANT.widthMm * 1.4, INSTANT.heightMm * 1.4];
    // a sheet of paper alone: its border leaves a picture of 2 mm, under the print
    const [across, down] = [widthMm / 2 - 1, heightMm / 2 - 1];
    const mount = {
      widthMm,
      heightMm,
      border: { left: across, right: across, top: down, bottom: down },
      paper: [0.4, 0.36, 0.3],
      pose: poseOf({ widthMm, heightMm, ppi, centre, turnDeg: 2 }),
    } as const;
    const print = instant({ ppi, centre, turnDeg: 2.5 });
    const { picture, truths } = drawPicture({
      widthPx: 540,
      heightPx: 640,
      background: "wood-grain",
      bedPxPerMm: 4,
      prints: [mount, print],
      seed,
    });
    const [outline] = findOutlines(picture, contextFor(INSTANT));
    expect(worstCorner(outline?.sheet, truths[1]?.sheet)).toBeLessThan(0.5);
  }
});

describe("where there is no print", () => {
  test.each<BackgroundKind>(["dark-cloth", "wood-grain", "patterned-table", "white-lid", "grey-card"])(
    "nothing is found on %s",
    (background) => {
      const { picture } = drawPicture(sceneOf({ background, prints: [], light: { fallOff: 0.2 } }));
      expect(findOutlines(picture, contextFor(INSTANT))).toEqual([]);
    },
  );

  test.each([
    ["one pixel", 1, 1, () => 128],
    ["three pixels wide", 3, 400, () => 200],
    ["uniform", 300, 200, () => 77],
    ["black", 200, 300, () => 0],
    ["noiseDeltaL", 300, 200, (index: number) => (Math.imul(index + 1, 0x9e3779b1) >>> 13) & 255],
    ["stripes", 320, 200, (index: number) => ((index / 3) % 16 < 8 ? 255 : 0)],
  ] as const)("a picture of %s is looked at without harm", (_, widthPx, heightPx, codeAt) => {
    const codes = Uint8Array.from({ length: widthPx * heightPx * 3 }, (_each, index) => codeAt(index));
    expect(() => findOutlines(pictureOf(codes, widthPx, heightPx), contextFor(INSTANT))).not.toThrow();
  });
});

// common practice, no source: the corners are those that were drawn
test("sharpening in codes moves the sides, and the corners are told as unsure as that", () => {
  const print = { ...instant({ turnDeg: 2.5 }), paper: [0.45, 0.45, 0.45] as const };
  const { picture, truths } = drawPicture(sceneOf({ prints: [print], ground: [0.03, 0.03, 0.03], blurPx: 0.8, seed: 7 }));
  const told = [0, 1].map((strength) => {
    const [found] = findOutlines(sharpened(picture, strength), contextFor(INSTANT));
    expect(worstCorner(found?.sheet, truths[0]?.sheet)).toBeLessThan(2 * (found?.cornerSpreadPx ?? 0));
    return found?.cornerSpreadPx;
  });
  expect(told[0]).toBeLessThan(0.06);
});
