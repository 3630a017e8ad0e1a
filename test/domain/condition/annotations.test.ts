import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { annotationPage } from "#domain/condition/annotations.ts";
import type { DatedFinding } from "#domain/condition/finding.ts";

const FINDING: DatedFinding = {
  id: 1,
  surveyId: 1,
  surveyedOn: "2026-11-25",
  lookedAtBy: "Anna Berg",
  term: "mould",
  severity: 2,
  activity: "active",
  side: "back",
  extent: "2-to-10",
  regions: [],
  note: "grey bloom",
  change: null,
  earlierFindingId: null,
};

const box = (left: number, top: number, right: number, bottom: number) => [
  { xMm: left, yMm: top },
  { xMm: right, yMm: top },
  { xMm: right, yMm: bottom },
  { xMm: left, yMm: bottom },
];
const TRIANGLE = [
  { xMm: 0, yMm: 0 },
  { xMm: 10, yMm: 0 },
  { xMm: 10, yMm: 8.5 },
];

const pageOf = (...regions: DatedFinding["regions"]) =>
  annotationPage("http://localhost/prints/7/annotations.json", [
    {
      finding: { ...FINDING, regions },
      uuid: "6a3f0a52-0f5e-4c3e-9a39-6a1f5e7d8c11",
      at: "2026-11-25T12:00:00.000Z",
      picture: { address: "http://localhost/prints/7/sides/back.jpg", pxPerMm: 10 },
    },
  ]);

/** Read back as another program gets it. */
const sent = (...regions: DatedFinding["regions"]) => JSON.parse(JSON.stringify(pageOf(...regions)));

test("an annotation has the members that the model requires, and no body beside a bodyValue", () => {
  const page = sent(box(2, 3, 6, 8));
  expect(page["@context"]).toBe("http://www.w3.org/ns/anno.jsonld");
  expect(page.type).toBe("AnnotationPage");
  const [annotation] = page.items;
  expect(annotation.id).toMatch(/^urn:uuid:[0-9a-f-]{36}$/);
  expect(annotation.type).toBe("Annotation");
  expect(annotation.target).toBeTruthy();
  expect(annotation).not.toHaveProperty("bodyValue");
  for (const body of annotation.body) expect(body).toMatchObject({ type: "TextualBody", value: expect.any(String) });
  expect(annotation.body[0].value).toBe("Mould, back: moderate, active, 2 to 10 % of this side");
});

test("a rectangle is a media fragment in whole pixels, an outline a drawing, both on the picture of the side", () => {
  const [boxed, drawn] = sent(box(2, 3, 6, 8.04), TRIANGLE).items[0].target;
  expect(boxed.source).toBe("http://localhost/prints/7/sides/back.jpg");
  expect(boxed.selector).toEqual({
    type: "FragmentSelector",
    conformsTo: "http://www.w3.org/TR/media-frags/",
    value: "xywh=pixel:20,30,40,50",
  });
  expect(drawn.selector.type).toBe("SvgSelector");
  expect(drawn.selector.value).toContain('points="0,0 100,0 100,85"');
});

test("a finding without a region is no annotation", () => {
  expect(sent().items).toEqual([]);
});

test("every member and type is a word of the published context", () => {
  const { "@context": context } = JSON.parse(readFileSync(new URL("../../fixtures/web-annotation/anno.jsonld", import.meta.url), "utf8"));
  const strange: string[] = [];
  const walk = (value: unknown): void => {
    if (Array.isArray(value)) for (const each of value) walk(each);
    if (Array.isArray(value) || typeof value !== "object" || value === null) return;
    for (const [key, inner] of Object.entries(value)) {
      if (key !== "@context" && !(key in context)) strange.push(key);
      if (key === "type" && !(String(inner) in context)) strange.push(String(inner));
      if (key === "motivation" || key === "purpose") if (!(String(inner) in context)) strange.push(String(inner));
      walk(inner);
    }
  };
  walk(sent(box(2, 3, 6, 8), TRIANGLE));
  expect(strange).toEqual([]);
  walk({ type: "Remark", wher: 1 });
  expect(strange).toEqual(["Remark", "wher"]);
});
