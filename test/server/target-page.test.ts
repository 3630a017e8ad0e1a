import { getDocument, OPS } from "pdfjs-dist/legacy/build/pdf.mjs";
import { expect, test } from "vitest";
import { darkHalf, PRINTED_PAGE, RULER } from "#domain/target/printed-page.ts";
import { createApp } from "#server/app.ts";
import { emptyCollection } from "../fixtures/collection.ts";

test("the page to print is one A4 sheet that says how to print and cut it, and what it cannot prove", async () => {
  const answer = await createApp(emptyCollection()).request("/target-page.pdf");
  expect(answer.headers.get("content-type")).toBe("application/pdf");
  const document = await getDocument({ data: new Uint8Array(await answer.arrayBuffer()) }).promise;
  expect(document.numPages).toBe(1);
  const page = await document.getPage(1);
  const { width, height } = page.getViewport({ scale: 1 });
  // ISO 216: 210 × 297 mm
  expect(width / 72).toBeCloseTo(210 / 25.4, 3);
  expect(height / 72).toBeCloseTo(297 / 25.4, 3);
  const { items } = await page.getTextContent();
  const text = items
    .map((item) => ("str" in item ? item.str : ""))
    .join(" ")
    .replace(/\s+/g, " ");
  expect(text).toContain("the ruler must be 100 mm long");
  expect(text).toContain("cannot prove tones and colours");
});

const MM_PER_PT = 25.4 / 72;

/** The paths that a page draws, each as the corners of its box on the paper in mm, whatever scales the file is written with. */
async function drawnBoxesMm(bytes: Uint8Array): Promise<{ widthMm: number; heightMm: number }[]> {
  const page = await (await getDocument({ data: bytes }).promise).getPage(1);
  const { fnArray, argsArray } = await page.getOperatorList();
  const scales: [number, number][] = [];
  let [across, down] = [1, 1];
  const boxes: { widthMm: number; heightMm: number }[] = [];
  for (const [index, operator] of fnArray.entries()) {
    const args = argsArray[index];
    if (operator === OPS.save) scales.push([across, down]);
    if (operator === OPS.restore) [across, down] = scales.pop() ?? [1, 1];
    if (operator === OPS.transform) {
      expect([args[1], args[2]]).toEqual([0, 0]);
      [across, down] = [across * Math.abs(args[0]), down * Math.abs(args[3])];
    }
    // a path without points has no box
    if (operator !== OPS.constructPath || args[2] === null) continue;
    const [left, top, right, bottom] = args[2];
    boxes.push({ widthMm: (right - left) * across * MM_PER_PT, heightMm: (bottom - top) * down * MM_PER_PT });
  }
  return boxes;
}

test("on paper the line to cut along is 180 × 250 mm, the ruler 100 mm and each edge's dark half 22 mm long, to a hundredth", async () => {
  const answer = await createApp(emptyCollection()).request("/target-page.pdf");
  const boxes = await drawnBoxesMm(new Uint8Array(await answer.arrayBuffer()));
  const near = (mm: number) => expect.closeTo(mm, 2);
  expect(boxes).toContainEqual({ widthMm: near(180), heightMm: near(250) });
  // the ticks are one path, from 0 to 100; the longest are 6 mm
  expect(boxes).toContainEqual({ widthMm: near(100), heightMm: near(6) });
  // half of 22 mm, and what a lean of 5° adds: 11 + 11 · tan 5° = 11.96
  const leaning = { widthMm: near(11.962), heightMm: near(22) };
  const level = { widthMm: near(22), heightMm: near(11.962) };
  expect(boxes.filter((box) => Math.abs(box.heightMm - 22) < 0.01)).toEqual(Array.from({ length: 5 }, () => leaning));
  expect(boxes.filter((box) => Math.abs(box.widthMm - 22) < 0.01)).toEqual(Array.from({ length: 5 }, () => level));
});

test("every edge leans by five degrees and keeps its dark half inside its box", () => {
  for (const edge of PRINTED_PAGE.edges) {
    const polygon = darkHalf(edge);
    for (const [x, y] of polygon) {
      expect(x).toBeGreaterThanOrEqual(edge.leftMm);
      expect(x).toBeLessThanOrEqual(edge.leftMm + edge.widthMm);
      expect(y).toBeGreaterThanOrEqual(edge.topMm);
      expect(y).toBeLessThanOrEqual(edge.topMm + edge.heightMm);
    }
    const isLevel = edge.id.endsWith("-down");
    const [a, b] = [polygon[isLevel ? 2 : 1], polygon[isLevel ? 3 : 2]] as [readonly [number, number], readonly [number, number]];
    const [dx, dy] = [Math.abs(b[0] - a[0]), Math.abs(b[1] - a[1])];
    expect((Math.atan(isLevel ? dy / dx : dx / dy) * 180) / Math.PI).toBeCloseTo(5, 6);
  }
});

test("ruler, edges and plain paper do not lie on each other", () => {
  const boxes = [
    ...PRINTED_PAGE.edges,
    ...PRINTED_PAGE.patches,
    { leftMm: RULER.leftMm - 4, topMm: RULER.topMm, widthMm: RULER.lengthMm + 8, heightMm: 12 },
  ];
  for (const [index, one] of boxes.entries())
    for (const other of boxes.slice(index + 1))
      expect(
        one.leftMm + one.widthMm <= other.leftMm ||
          other.leftMm + other.widthMm <= one.leftMm ||
          one.topMm + one.heightMm <= other.topMm ||
          other.topMm + other.heightMm <= one.topMm,
      ).toBe(true);
});
