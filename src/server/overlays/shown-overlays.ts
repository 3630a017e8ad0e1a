import type { ShownOverlay } from "#views/parts/overlays.tsx";
import { areaOverlay } from "./area-overlay.ts";
import { evennessOverlay } from "./evenness-overlay.ts";
import { outlineOverlay, pictureOverlay } from "./outline-overlays.ts";
import type { Seen } from "./seen.ts";
import { edgesOverlay, sharpnessOverlay } from "./sharpness-overlays.ts";

/** What is drawn over a capture, in the order of the legend: what was read, how many and how large; or why it is missing. */
export function shownOverlays(seen: Seen): ShownOverlay[] {
  if (seen.readings.length === 0) return [];
  return [
    outlineOverlay(seen),
    pictureOverlay(seen),
    areaOverlay(seen, "glare", ["glareAreaPercent", "borderGlarePercent"]),
    areaOverlay(seen, "highlights", ["clippedHighlightsPercent"]),
    areaOverlay(seen, "shadows", ["clippedShadowsPercent"]),
    areaOverlay(seen, "streaks", ["streakCount"]),
    areaOverlay(seen, "rings", ["ringAreaPercent"]),
    areaOverlay(seen, "dust", ["dustPerCm2", "scratchLengthMm"]),
    sharpnessOverlay(seen),
    evennessOverlay(seen),
    edgesOverlay(seen),
  ];
}
