import type { MeasureName } from "../measure/catalogue.ts";
import type { Side } from "../measure/lines.ts";
import type { FrameSize, MarkedArea } from "../measure/marked-area.ts";
import { isPresent, type Outline, type Present, type Reading } from "../measure/reading.ts";
import type { StandingLens } from "./lens-of-capture.ts";

/** A capture as it was measured: what its failing measures say in numbers of how to set up anew. */
export type SeenCapture = {
  readonly isCamera: boolean;
  readonly frame: FrameSize;
  /** false where the capture is a part of a larger frame, so that its middle is not the lens's */
  readonly isWholeFrame: boolean;
  readonly outline: Outline | null;
  readonly readings: readonly Reading[];
  readonly areas: ReadonlyMap<MeasureName, readonly MarkedArea[]>;
  /** how the lens stood over the print; null where no figures tell, and distances are then told as shares alone */
  readonly lens: StandingLens | null;
};

export const presentIn = ({ readings }: Pick<SeenCapture, "readings">, name: MeasureName): Present | null => {
  const reading = readings.find((each) => each.name === name);
  return isPresent(reading) ? reading : null;
};

/** Pixels in a mm of the print; null where sampling was not read. */
export function pxPerMmOf(seen: Pick<SeenCapture, "readings">): number | null {
  const sampling = presentIn(seen, "samplingPpi");
  return sampling ? sampling.value / 25.4 : null;
}

/** Sides as the frame shows them. */
export const SIDE_WORDS: Readonly<Record<Side, string>> = { top: "upper", bottom: "lower", left: "left", right: "right" };
