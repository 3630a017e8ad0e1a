import { EXTENT_WORDS } from "./extent.ts";
import type { DatedFinding } from "./finding.ts";
import { findingInWords } from "./finding-in-words.ts";
import { type MarkedRegion, rectangleOf } from "./marked-region.ts";
import { findTerm } from "./terms.ts";

/** The media type that the Web Annotation Protocol asks for. */
export const ANNOTATION_TYPE = 'application/ld+json;profile="http://www.w3.org/ns/anno.jsonld"';

type Annotated = {
  readonly finding: DatedFinding;
  readonly uuid: string;
  /** when the survey was finished, ISO 8601 UTC */
  readonly at: string;
  /** address of the straightened picture of that side, and its scale */
  readonly picture: { readonly address: string; readonly pxPerMm: number };
};

/**
 * Findings with regions as a page of annotations (W3C Web Annotation Data Model, Recommendation of 23 February 2017). A rectangle is a
 * FragmentSelector (W3C Media Fragments URI 1.0), an outline an SvgSelector, both in pixels of the picture that lies on the print's own
 * mm grid, so that they hold for every later capture of that side.
 */
export function annotationPage(address: string, annotated: readonly Annotated[]) {
  return {
    "@context": "http://www.w3.org/ns/anno.jsonld",
    id: address,
    type: "AnnotationPage",
    items: annotated.filter(({ finding }) => finding.regions.length > 0).map(annotation),
  };
}

function annotation({ finding, uuid, at, picture }: Annotated) {
  const { term, note, extent, activity, regions, lookedAtBy } = finding;
  const said = [
    findingInWords(finding),
    activity === "active" ? "active" : activity === "stable" ? "not active" : "activity not known",
    ...(extent ? [EXTENT_WORDS[extent]] : []),
  ].join(", ");
  const text = (value: string, purpose: string) => ({ type: "TextualBody", value, format: "text/plain", language: "en", purpose });
  const targets = regions.map((region) => ({
    type: "SpecificResource",
    source: picture.address,
    selector: selectorOf(region, picture.pxPerMm),
  }));
  return {
    id: `urn:uuid:${uuid}`,
    type: "Annotation",
    motivation: "describing",
    created: at,
    ...(lookedAtBy ? { creator: { type: "Person", name: lookedAtBy } } : {}),
    body: [text(said, "describing"), text(findTerm(term)?.name ?? term, "classifying"), ...(note ? [text(note, "commenting")] : [])],
    target: targets.length === 1 ? targets[0] : targets,
  };
}

function selectorOf(region: MarkedRegion, pxPerMm: number) {
  const px = (mm: number) => Math.round(mm * pxPerMm * 100) / 100;
  const box = rectangleOf(region);
  if (box) {
    const [left, top] = [Math.round(box.leftMm * pxPerMm), Math.round(box.topMm * pxPerMm)];
    const width = Math.max(1, Math.round(box.widthMm * pxPerMm));
    const height = Math.max(1, Math.round(box.heightMm * pxPerMm));
    return {
      type: "FragmentSelector",
      conformsTo: "http://www.w3.org/TR/media-frags/",
      value: `xywh=pixel:${left},${top},${width},${height}`,
    };
  }
  const corners = region.map(({ xMm, yMm }) => `${px(xMm)},${px(yMm)}`).join(" ");
  return { type: "SvgSelector", value: `<svg xmlns="http://www.w3.org/2000/svg"><polygon points="${corners}"/></svg>` };
}
