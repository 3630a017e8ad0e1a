import { z } from "zod";
import type { Side } from "../measure/lines.ts";
import { boxOfQuad } from "../measure/lines.ts";
import type { FrameSize } from "../measure/marked-area.ts";
import type { Quad } from "../measure/picture.ts";
import { lensDistanceMm } from "../plan/sampling.ts";
import { darkestCorner, whereTheLightStands } from "./light-advice.ts";
import { whatIsMirrored } from "./mirrored-advice.ts";
import type { Advice, RecaptureReason } from "./recapture-line.ts";
import { presentIn, type SeenCapture, SIDE_WORDS } from "./seen-capture.ts";
import { softSide, tilt } from "./tilt-advice.ts";

type Short = Pick<RecaptureReason, "measure" | "required" | "value">;

/**
 * What the readings themselves say of the cause, in numbers for the copy stand; null where they say nothing more than the general
 * advice. Directions are those of the frame as it is shown.
 */
export const measuredAdvice = (short: Short, seen: SeenCapture): Advice | null => MEASURED[short.measure]?.(seen, short) ?? null;

const MEASURED: Readonly<Record<string, (seen: SeenCapture, short: Short) => Advice | null>> = {
  keystonePercent: tilt,
  keystoneMm: tilt,
  focusFalloffPercent: softSide,
  skewDegrees: turn,
  sidesSeen: margins,
  marginMm: margins,
  glareAreaPercent: whatIsMirrored,
  glarePeakDeltaL: whatIsMirrored,
  borderGlarePercent: (seen) => whereTheLightStands(seen, "borderGlarePercent"),
  ringAreaPercent: contact,
  streakCount: strips,
  streakDeltaL: strips,
  samplingPpi: distance,
  evennessPercent: darkestCorner,
  borderLightnessSpreadPercent: darkestCorner,
};

function turn(seen: SeenCapture): Advice | null {
  const read = z.object({ degreesClockwise: z.number() }).safeParse(presentIn(seen, "skewDegrees")?.detail);
  if (!read.success) return null;
  const { degreesClockwise } = read.data;
  return {
    sentence: `Turn the print by ${Math.abs(degreesClockwise).toFixed(1)}° ${degreesClockwise > 0 ? "anticlockwise" : "clockwise"} as it lies in the frame.`,
    source: "the reading itself",
  };
}

const fourMargins = z.record(z.enum(["topMm", "rightMm", "bottomMm", "leftMm"]), z.number().nullable());

function margins(seen: SeenCapture): Advice | null {
  const read = fourMargins.safeParse(presentIn(seen, "marginMm")?.detail);
  const cut = (["top", "right", "bottom", "left"] as const).filter(
    (side) => seen.outline?.sides[side] === "cut-off" || (read.success && (read.data[`${side}Mm`] ?? 1) < 0),
  );
  if (cut.length > 0)
    return { sentence: `The frame cuts the ${cut.map((side) => SIDE_WORDS[side]).join(" and the ")} side.`, source: "the reading itself" };
  if (!read.success) return null;
  const [least] = Object.entries(read.data)
    .flatMap(([name, mm]) => (mm === null ? [] : [{ side: name.slice(0, -2) as Side, mm }]))
    .toSorted((a, b) => a.mm - b.mm);
  return least
    ? {
        sentence: `The narrowest margin is ${least.mm.toFixed(1)} mm, on the ${SIDE_WORDS[least.side]} side.`,
        source: "the reading itself",
      }
    : null;
}

const fringes = z.object({ contactMm: z.object({ xMm: z.number(), yMm: z.number() }) });

function contact(seen: SeenCapture): Advice | null {
  const read = fringes.safeParse(presentIn(seen, "ringAreaPercent")?.detail);
  if (!read.success) return null;
  const { xMm, yMm } = read.data.contactMm;
  return {
    sentence: `The rings run round a place ${xMm.toFixed(0)} mm from the left and ${yMm.toFixed(0)} mm from the top of the picture as shown: there the print touches the glass.`,
    source: "Newton's rings close round the place of contact",
  };
}

/** Streaks as a reading keeps them. */
export const keptStreaks = z.array(z.object({ line: z.string(), fromFrameEdgeMm: z.number(), widthMm: z.number() }));

function strips(seen: SeenCapture): Advice | null {
  const read = keptStreaks.safeParse(presentIn(seen, "streakCount")?.detail?.streaks);
  if (!read.success || read.data.length === 0) return null;
  const places = read.data.map(
    ({ line, fromFrameEdgeMm, widthMm }) =>
      `${fromFrameEdgeMm.toFixed(1)} mm from the ${line.startsWith("down") ? "left" : "upper"} edge of the frame (${widthMm.toFixed(1)} mm wide)`,
  );
  return {
    sentence: `${seen.isCamera ? "The lines lie" : "The strip of glass is dirty"} ${places.join(", ")}.`,
    source: "a streak stays in its place of the frame",
  };
}

/** A print must not fill the frame whole: some ground is to be seen round it. */
const MOST_OF_FRAME = 0.95;

/**
 * With one lens the scale goes with 1 / (distance − focal length), so that coming nearer by the whole share that is missing is too
 * much close up. Where the lens is not known, the share of the frame tells when to stop, and that share is the nearest it can be.
 */
function distance({ isCamera, frame, outline, lens }: SeenCapture, { required, value }: Short): Advice | null {
  if (!isCamera || value === null || value <= 0 || value >= required) return null;
  const larger = required / value;
  const fills = outline && shareOfFrame(outline.sheet, frame, larger);
  if (fills && (fills.across > MOST_OF_FRAME || fills.down > MOST_OF_FRAME)) return frameTooSmall(frame, fills);
  const takes =
    fills &&
    `the print ${lens ? "then takes" : "takes"} ${Math.round(100 * fills.across)} × ${Math.round(100 * fills.down)} % of the frame`;
  if (lens) {
    const [from, to] = [lens.magnification, larger * lens.magnification].map((m) => Math.round(lensDistanceMm(lens.focalLengthMm, m)));
    return {
      sentence: `Bring the lens from about ${from} mm to about ${to} mm above the print${takes ? `: ${takes}` : ""}.`,
      source: "distance f (1 + 1/m) of a thin lens, by the figures of the set-up and the measured sampling",
    };
  }
  const nearest = `not nearer than ${Math.round(100 / larger)} % of its distance from the print`;
  return {
    sentence: takes
      ? `Bring the lens nearer until ${takes}: ${nearest}.`
      : `Bring the lens nearer, but ${nearest}, and see what that reaches.`,
    source: "scale goes with the inverse of the distance less the focal length, so that close up less is needed",
  };
}

type Fills = { readonly across: number; readonly down: number };

function shareOfFrame(sheet: Quad, frame: FrameSize, larger: number): Fills {
  const { widthPx, heightPx } = boxOfQuad(sheet);
  return { across: (larger * widthPx) / frame.widthPx, down: (larger * heightPx) / frame.heightPx };
}

function frameTooSmall(frame: FrameSize, { across, down }: Fills): Advice {
  const most = (length: number) => Math.ceil(length / MOST_OF_FRAME / 100) * 100;
  return {
    sentence: `This frame of ${frame.widthPx} × ${frame.heightPx} px is too small: the print with its margin needs ${most(across * frame.widthPx)} × ${most(down * frame.heightPx)} px. Use a camera with more pixels, or a scanner.`,
    source: "definition of sampling: pixels over inches of the print",
  };
}
