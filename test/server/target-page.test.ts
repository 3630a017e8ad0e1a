import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
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
