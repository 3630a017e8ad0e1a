import type { Point, Quad } from "../measure/picture.ts";
import type { Refusal } from "../outcome.ts";

/** Clockwise from the top left, as the picture shows them. */
export const CORNERS = ["topLeft", "topRight", "bottomRight", "bottomLeft"] as const;
export type Corner = (typeof CORNERS)[number];

export const CORNER_LABELS: Readonly<Record<Corner, string>> = {
  topLeft: "top left",
  topRight: "top right",
  bottomRight: "bottom right",
  bottomLeft: "bottom left",
};

export const AXIS_LABELS = { x: "across", y: "down" } as const;

/** Name of a form's field for one number of a corner; parts count from 1. */
export const cornerField = (part: number, corner: Corner, axis: "x" | "y"): string => `part${part}-${corner}-${axis}`;

type Typed = Readonly<Record<string, string>>;

/** Corners as a form shows them: to a tenth of a pixel, which is finer than a hand can set them. */
export const typedFrom = (part: number, quad: Quad): Typed =>
  Object.fromEntries(
    CORNERS.flatMap((corner) => (["x", "y"] as const).map((axis) => [cornerField(part, corner, axis), quad[corner][axis].toFixed(1)])),
  );

/** The parts of which a form holds corners, highest first number last. */
export function partsTyped(typed: Typed): number[] {
  const numbers = Object.keys(typed).flatMap((name) => /^part(\d{1,3})-topLeft-x$/.exec(name)?.[1] ?? []);
  return numbers.map(Number).sort((a, b) => a - b);
}

/** A number as a person types it into a corner's field; NaN where it is none. */
export function cornerNumber(text: string | undefined): number {
  const plain = (text ?? "").trim().replace(",", ".");
  return /^-?\d{1,6}(\.\d+)?$/.test(plain) ? Number(plain) : Number.NaN;
}

/** The corners typed for a part; null where one of them is no number. */
export function cornersTyped(typed: Typed, part: number): Quad | null {
  const numberOf = (corner: Corner, axis: "x" | "y") => cornerNumber(typed[cornerField(part, corner, axis)]);
  const point = (corner: Corner): Point => ({ x: numberOf(corner, "x"), y: numberOf(corner, "y") });
  const quad = {
    topLeft: point("topLeft"),
    topRight: point("topRight"),
    bottomRight: point("bottomRight"),
    bottomLeft: point("bottomLeft"),
  };
  return CORNERS.every((corner) => Number.isFinite(quad[corner].x) && Number.isFinite(quad[corner].y)) ? quad : null;
}

/** What is said of corners that cannot be read, by their names. */
export function unreadCorners(typed: Typed, part: number): Refusal {
  const unread = CORNERS.flatMap((corner) =>
    (["x", "y"] as const)
      .filter((axis) => Number.isNaN(cornerNumber(typed[cornerField(part, corner, axis)])))
      .map((axis) => `${CORNER_LABELS[corner]} ${AXIS_LABELS[axis]}`),
  );
  return {
    about: `part${part}-corners`,
    happened: `No number is written for ${unread.join(", ")}.`,
    remedy: "Write pixels, for example 120.5.",
  };
}

/** Whether the corners of a form are still those it was given. */
export const areAsGiven = (typed: Typed, part: number, given: Quad): boolean =>
  Object.entries(typedFrom(part, given)).every(([name, value]) => typed[name] === undefined || typed[name] === value);

/** An upright part in the middle of the frame, or the one that was drawn: two opposite corners as “left top right bottom”. */
export function newPart(drawn: string | undefined, { widthPx, heightPx }: { widthPx: number; heightPx: number }): Quad {
  const numbers = (drawn ?? "").split(" ").map(Number);
  const [x0, y0, x1, y1] =
    numbers.length === 4 && numbers.every(Number.isFinite)
      ? (numbers as [number, number, number, number])
      : [widthPx / 3, heightPx / 3, (2 * widthPx) / 3, (2 * heightPx) / 3];
  const [left, right, top, bottom] = [Math.min(x0, x1), Math.max(x0, x1), Math.min(y0, y1), Math.max(y0, y1)];
  return {
    topLeft: { x: left, y: top },
    topRight: { x: right, y: top },
    bottomRight: { x: right, y: bottom },
    bottomLeft: { x: left, y: bottom },
  };
}
