import { expect, test } from "vitest";
import type { AimLimit } from "#domain/aim/aim.ts";
import { PUBLISHED_AIMS } from "#domain/aim/published.ts";
import type { Verdict } from "#domain/master/judgement.ts";
import { limitInWords, standing } from "#views/parts/aim-words.ts";
import { CaptureMeasures } from "#views/parts/capture-measures.tsx";
import { DetailPlot } from "#views/parts/detail-plot.tsx";
import { MeasureValue, readingInWords } from "#views/parts/measure-value.tsx";
import { OutlineLegend, OutlineOverlay } from "#views/parts/outline-overlay.tsx";
import { ReadingDetail } from "#views/parts/reading-detail.tsx";
import { curvesOf, SfrPlot } from "#views/parts/sfr-plot.tsx";

const html = (part: unknown) => String(part);

test.each([
  [{ name: "samplingPpi", value: 312.4, reliability: "firm", spread: 2 }, "312 ppi ± 2"],
  [{ name: "sfr50CyPerMm", value: 4.126, reliability: "fair", bound: "lower", spread: 0.1 }, "at least 4.13 cy/mm ± 0.10"],
  [{ name: "sharpeningOvershootPercent", value: 0.7, reliability: "firm", spread: 3e-7 }, "0.7 % ± under 0.001"],
  [{ name: "skewDegrees", value: 1.5, reliability: "firm", spread: 1e-9 }, "1.50° ± under 0.0001"],
  [{ name: "skewDegrees", value: 0.131, reliability: "firm", spread: 0.004 }, "0.13° ± 0.004"],
  [{ name: "sidesSeen", value: 3, reliability: "firm" }, "3 of 4"],
  [{ name: "lossless", value: 0, reliability: "firm" }, "no"],
  [{ name: "lossless", value: 1, reliability: "firm" }, "yes"],
  [{ name: "clippedHighlightsPercent", value: 0, reliability: "firm", bound: "upper" }, "at most 0.00 %"],
] as const)("%j reads as “%s”, and no spread is rounded to nothing", (reading, words) => {
  expect(readingInWords(reading)).toBe(words);
});

test("what was not read says why where a keyboard can reach it, and never shows a number", () => {
  const shown = html(<MeasureValue reading={{ name: "noiseDeltaL", absent: "the border is too narrow" }} />);
  expect(shown).toContain("<summary>not read</summary>");
  expect(shown).toContain("the border is too narrow");
  expect(shown).not.toMatch(/\d/);
});

test("beside the colour of the border stands that it is not held against the white of a new or an aged one", () => {
  const shown = html(<CaptureMeasures readings={[{ name: "borderCastChroma", value: 6.1, reliability: "fair" }]} />);
  expect(shown).toMatch(/not held against the white that such a border had when new or has at its age: no published figures/);
});

test("how far to trust a reading stands in words, not in colour alone", () => {
  expect(html(<MeasureValue reading={{ name: "noiseDeltaL", value: 0.6, reliability: "weak" }} />)).toContain("weak, a hint only");
});

test("each limit of the ready-made aims is said in words, without an empty place or a stray number", () => {
  const all = PUBLISHED_AIMS.flatMap((aim) => aim.limits);
  expect(all.length).toBeGreaterThan(20);
  for (const limit of all)
    expect(limitInWords(limit), limit.measure).toMatch(/^(yes|better if yes|((at least|at most|counts from|best at) [^N]+))$/);
});

const limit = (measure: string, over: Partial<AimLimit> = {}): AimLimit => ({
  measure,
  sense: "at-least",
  lowest: 200,
  best: 600,
  highest: null,
  weight: 1,
  requiredAtLeast: 392,
  requiredAtMost: null,
  provedBy: "print",
  source: "test",
  sourceStatus: "own",
  ...over,
});

const verdict = (value: number | null, isShort: boolean): Verdict => ({
  captureId: 1,
  fileName: "a.tif",
  measures: [
    {
      measure: "samplingPpi",
      value,
      bound: null,
      spread: null,
      desirability: value === null ? null : 0.5,
      notShown: value === null ? "why" : null,
    },
  ],
  shortfalls: isShort
    ? [{ measure: "samplingPpi", sense: "at-least", required: 392, value, bound: null, notShown: value === null ? "why" : null }]
    : [],
  beatenBy: null,
  overall: null,
});

test("a capture meets a requirement, is short of it, or does not show it: never one for the other", () => {
  expect(standing(limit("samplingPpi"), verdict(450, false))?.state).toBe("met");
  expect(standing(limit("samplingPpi"), verdict(310, true))?.state).toBe("short");
  expect(standing(limit("samplingPpi"), verdict(null, true))?.state).toBe("not-shown");
  expect(standing(limit("samplingPpi", { requiredAtLeast: null }), verdict(450, false))?.words).toBe("counts 50 of 100");
});

test("a bound that leaves open whether a requirement is met says that it cannot be told, and nothing else does", () => {
  const most = limit("samplingPpi", { sense: "at-most", requiredAtLeast: null, requiredAtMost: 2 });
  const read = (value: number, bound: "lower" | "upper" | null, isShort = false): Verdict => {
    const seen = verdict(value, isShort);
    return { ...seen, measures: seen.measures.map((each) => ({ ...each, bound })) };
  };
  expect(standing(most, read(1.4, "lower"))).toEqual({ state: "open", words: "whether it meets the aim cannot be told" });
  expect(standing(most, read(1.4, "upper"))?.state).toBe("met");
  expect(standing(most, read(2.6, "lower", true))?.state).toBe("short");
  expect(standing(limit("samplingPpi"), read(300, "lower", true))?.state).toBe("open");
  expect(standing(limit("samplingPpi", { requiredAtLeast: null }), read(300, "lower"))?.state).toBe("counts");
});

test("what only a target can prove is never said to be met, nor what nobody judged", () => {
  expect(standing(limit("samplingPpi", { provedBy: "target" }), verdict(450, false))).toBe(null);
  expect(standing(limit("samplingPpi"), undefined)).toBe(null);
  expect(standing(undefined, verdict(450, false))).toBe(null);
});

const outline = {
  sheet: { topLeft: { x: 10, y: 20 }, topRight: { x: 90, y: 22 }, bottomRight: { x: 88, y: 70 }, bottomLeft: { x: 9, y: 68 } },
  image: null,
  sides: { top: "seen", right: "assumed", bottom: "seen", left: "cut-off" },
} as const;

test("an outline is drawn in the capture's own pixels, whose frame begins half a pixel before the first centre", () => {
  const drawn = html(<OutlineOverlay widthPx={100} heightPx={80} outlines={[outline]} />);
  expect(drawn).toContain('viewBox="-0.5 -0.5 100 80"');
  expect(drawn).toContain('class="outline-side outline-seen" x1="10" y1="20" x2="90" y2="22"');
  expect(drawn).toContain('class="outline-side outline-assumed" x1="90" y1="22" x2="88" y2="70"');
  expect(drawn).not.toContain("part-number");
  expect(drawn).not.toContain("style=");
  expect(html(<OutlineLegend outlines={[outline]} />)).toMatch(/Dashed: not sure.*Dotted: cut off/);
});

test("several outlines are numbered in their order, each in its middle", () => {
  const drawn = html(<OutlineOverlay widthPx={100} heightPx={80} outlines={[outline, outline]} />);
  expect([...drawn.matchAll(/<text[^>]*>(\d)<\/text>/g)].map((match) => match[1])).toEqual(["1", "2"]);
  expect(drawn).toContain('<circle cx="49.25" cy="45"');
});

const CURVE = { label: "left side of the sheet", cyPerMm: [0, 5, 10], modulation: [1, 0.5, 0.1] };

test("a curve is drawn from full contrast on the left to its end on the right, and stands as a table too", () => {
  const drawn = html(<SfrPlot curves={[CURVE]} />);
  const points =
    /points="([^"]+)"/
      .exec(drawn)?.[1]
      ?.split(" ")
      .map((point) => point.split(",").map(Number)) ?? [];
  expect(points).toHaveLength(3);
  const [[x0 = 0, y0 = 0] = [], [x1 = 0, y1 = 0] = [], [x2 = 0, y2 = 0] = []] = points;
  expect(x1 - x0).toBeCloseTo(x2 - x1, 1);
  expect((y1 - y0) / (y2 - y0)).toBeCloseTo(0.5 / 0.9, 2);
  expect(drawn).toContain("<td>5.00</td><td>50.0 %</td>");
});

test("the detail of captures compared stands in one plot, a line a capture under its file name, and none where none was read", () => {
  const detail = { curves: [{ ...CURVE, label: "share" }] };
  const captures = ["first.tif", "second.jpg"].map((name) => ({
    name,
    readings: [{ name: "detailCyPerMm", value: 5, reliability: "firm", detail } as const],
  }));
  const drawn = html(<DetailPlot side="front" captures={captures} />);
  expect([...drawn.matchAll(/<polyline/g)]).toHaveLength(2);
  for (const { name } of captures) expect(drawn).toContain(`<caption>${name}</caption>`);
  expect(drawn).toContain('<th scope="col">Confirmed detail</th>');
  expect(html(<DetailPlot side="front" captures={captures.map((each) => ({ ...each, readings: [] }))} />)).toBe("");
});

test("a reading without curves, or with something else in their place, draws none", () => {
  expect(curvesOf(undefined)).toEqual([]);
  expect(curvesOf({ curves: "none" })).toEqual([]);
  expect(curvesOf({ curves: [{ label: "x", cyPerMm: [1], modulation: [] }] })).toEqual([]);
  expect(curvesOf({ curves: [CURVE] })).toEqual([CURVE]);
});

test("the parts of a reading become a table that says what could not be read; points for drawing stay away", () => {
  const shown = html(
    <ReadingDetail
      detail={{
        sides: [
          { side: "left", sfr50CyPerMm: 4.12345 },
          { side: "top", sfr50CyPerMm: null },
        ],
        corner: { x: 1, y: 2 },
        isExact: false,
      }}
    />,
  );
  expect(shown).toContain("SFR 50 %, cycles per mm");
  expect(shown).toContain("<td>4.123</td>");
  expect(shown).toContain("<td>none</td>");
  expect(shown).toContain("<dd>no</dd>");
  expect(shown).not.toContain("Corner");
});
