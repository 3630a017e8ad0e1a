import { expect, test } from "vitest";
import { arrangementInput } from "#domain/plan/arrangement.ts";
import { askedOf } from "#domain/plan/asked.ts";
import type { CameraPlan } from "#domain/plan/camera-plan.ts";
import { planCapture } from "#domain/plan/plan-capture.ts";
import { LampDrawing } from "#views/parts/lamp-drawing.tsx";

const CAMERA = { sensorWidthMm: "36", sensorHeightMm: "24", sensorWidthPx: "6000", sensorHeightPx: "4000", focalLengthMm: "60" };
const SIZE = { widthMm: 180, heightMm: 240 };

/** The drawing of lamps at 45° and 400 mm, 200 mm across, round a print of 180 × 240 mm, with the lengths that its lines have in it. */
function drawn(lampCount: "1" | "2" | "4") {
  const lamps = { lampCount, lampElevationDegrees: "45", lampDistanceMm: "400", lampWidthMm: "200" };
  const { camera } = planCapture(arrangementInput.parse({ ...CAMERA, ...lamps }), {
    prints: [{ label: "A1", ...SIZE }],
    marginMm: 5,
    curlMm: 0,
    asked: askedOf([]),
  }).sizes[0] ?? { camera: null };
  const { lighting, lensMm } = camera as CameraPlan;
  if (lighting === null) throw new Error("The lamps are not planned.");
  const svg = String(LampDrawing({ plan: lighting, size: SIZE, lensMm }));
  const [side = "", above = ""] = svg.split("<g ").slice(1);
  const [barUnits, barMm] = [Number(/M0 0h([\d.]+)/.exec(svg)?.[1]), Number(/(\d+) mm<\/text>/.exec(svg)?.[1])];
  const mm = (units: number) => (units * barMm) / barUnits;
  const numbers = (tag: string) => [...tag.matchAll(/ (x1|y1|x2|y2)="(-?[\d.e-]+)"/g)].map(([, name, value]) => [name, Number(value)]);
  const line = (of: string, className: string) =>
    [...of.matchAll(/<line [^>]*>/g)].filter(([tag]) => tag.includes(`"${className}"`)).map(([tag]) => Object.fromEntries(numbers(tag)));
  const middleOf = ({ x1, x2, y1, y2 }: Record<string, number>) => ({
    x: mm(((x1 ?? 0) + (x2 ?? 0)) / 2),
    y: mm(((y1 ?? 0) + (y2 ?? 0)) / 2),
  });
  const lengthOf = ({ x1, x2, y1, y2 }: Record<string, number>) => mm(Math.hypot((x2 ?? 0) - (x1 ?? 0), (y2 ?? 0) - (y1 ?? 0)));
  return { svg, side, above, mm, line, middleOf, lengthOf, lensMm };
}

test("lamps stand to scale: at 45° and 400 mm both drawings put them 283 mm out, the side view as high, by the bar's own millimetres", () => {
  const { side, above, line, middleOf, lengthOf } = drawn("2");
  // 400 cos 45°
  const out = 400 * Math.SQRT1_2;
  const [left, right] = line(above, "lamp-face").map(middleOf);
  expect(left?.x).toBeCloseTo(-out, 3);
  expect(right?.x).toBeCloseTo(out, 3);
  expect(left?.y).toBeCloseTo(0, 3);
  const faces = line(side, "lamp-face");
  expect(faces.map(middleOf).map(({ x }) => Math.abs(x))).toEqual([expect.closeTo(out, 3), expect.closeTo(out, 3)]);
  // up is negative in the drawing
  expect(faces.map(middleOf).map(({ y }) => -y)).toEqual([expect.closeTo(out, 3), expect.closeTo(out, 3)]);
  for (const face of [...faces, ...line(above, "lamp-face")]) expect(lengthOf(face)).toBeCloseTo(200, 3);
});

test("print and lens are drawn to the same scale, and the family of angles begins at the print's ends", () => {
  for (const [count, lengthMm] of [
    ["2", 240],
    // cut along the diagonal of 180 × 240 mm
    ["4", 300],
  ] as const) {
    const { side, mm, line, lengthOf, lensMm } = drawn(count);
    const [print] = line(side, "lamp-print");
    expect(lengthOf(print ?? {})).toBeCloseTo(lengthMm, 3);
    expect(mm(-Number(/<circle class="lamp-lens" cx="0" cy="(-?[\d.]+)"/.exec(side)?.[1]))).toBeCloseTo(lensMm, 3);
    const zone = /class="lamp-zone" d="M(-[\d.]+) 0L([\d.]+) 0/.exec(side);
    expect(mm(Number(zone?.[2]) - Number(zone?.[1]))).toBeCloseTo(lengthMm, 3);
  }
  expect(drawn("4").svg).toContain("along a diagonal");
});
