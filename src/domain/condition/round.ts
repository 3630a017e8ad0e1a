import { z } from "zod";
import { chosen, line, typed } from "../print/typed-text.ts";
import type { Grade } from "./grade.ts";
import { CONFIDENCES, type Confidence, type Share, shareWithInterval } from "./sampling.ts";

/** How a sample was drawn: with the same list of prints it can be drawn again. */
export type DrawnSample = {
  readonly seed: number;
  /** prints drawn from */
  readonly population: number;
  readonly marginPercent: number;
  readonly confidencePercent: Confidence;
  readonly expectedPercent: number;
};

export type Round = {
  readonly id: number;
  readonly name: string;
  readonly placeId: number | null;
  readonly sample: DrawnSample | null;
  readonly startedAt: string;
};

export type RoundCounts = { readonly all: number; readonly looked: number; readonly passed: number };

/** A place to go through whole. */
export const roundInput = z.object({ placeId: z.coerce.number("Choose a place.").int().positive("Choose a place.") });

const percent = (what: string, least: number, most: number, otherwise: string) =>
  typed(10).transform((text, issues) => {
    const value = Number((text === "" ? otherwise : text).replace(",", ".").replace(/ ?%$/, ""));
    if (value >= least && value <= most) return value;
    issues.addIssue({ code: "custom", message: `Write ${what} as per cent, from ${least} to ${most}.` });
    return z.NEVER;
  });

/** A sample of the whole collection or of a place. */
export const sampleInput = z.object({
  name: line(120),
  placeId: typed(15)
    .refine((text) => text === "" || /^[1-9]\d*$/.test(text), "Choose a place from the list.")
    .transform((text) => (text === "" ? null : Number(text))),
  marginPercent: percent("how far the share may be off", 0.5, 40, "5"),
  expectedPercent: percent("the share that you expect", 0.1, 99.9, "50"),
  confidencePercent: chosen(
    (text): text is "90" | "95" | "99" => CONFIDENCES.some((each) => String(each) === text),
    "Choose 90, 95 or 99 per cent.",
  ).transform((text) => Number(text ?? "95") as Confidence),
  /** empty: one is drawn */
  seed: typed(10).transform((text, issues) => {
    if (text === "") return null;
    if (/^\d{1,9}$/.test(text)) return Number(text);
    issues.addIssue({ code: "custom", message: "The seed is a whole number of at most nine digits." });
    return z.NEVER;
  }),
});
export type SampleInput = z.output<typeof sampleInput>;

export type RoundResult = {
  readonly looked: number;
  /** shares of what was looked at, each with its interval for all the prints drawn from */
  readonly shares: readonly { readonly what: string; readonly seen: number; readonly share: Share }[];
};

/** What the looks of a sample say of all the prints it was drawn from; null before the first look. */
export function resultOf(
  sample: DrawnSample,
  looks: readonly { readonly grade: Grade | null; readonly hasActive: boolean }[],
): RoundResult | null {
  if (looks.length === 0) return null;
  const kinds: readonly [string, (look: (typeof looks)[number]) => boolean][] = [
    ["Poor or unacceptable", ({ grade }) => grade === "poor" || grade === "unacceptable"],
    ["Unacceptable", ({ grade }) => grade === "unacceptable"],
    ["Fair", ({ grade }) => grade === "fair"],
    ["Good", ({ grade }) => grade === "good"],
    ["With active damage", ({ hasActive }) => hasActive],
  ];
  const shares = kinds.map(([what, counts]) => {
    const seen = looks.filter(counts).length;
    const { population, confidencePercent } = sample;
    return { what, seen, share: shareWithInterval({ seen, looked: looks.length, population, confidencePercent }) };
  });
  return { looked: looks.length, shares };
}
