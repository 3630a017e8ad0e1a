import { type ShownCapture, sizeInPixels } from "./capture-card.tsx";
import { OutlineOverlay, type ShownOutline } from "./outline-overlay.tsx";

/** A capture large on neutral grey, with the prints found drawn over it. */
export function CaptureView({ capture, outlines, alt }: { capture: ShownCapture; outlines: readonly ShownOutline[]; alt: string }) {
  const { widthPx, heightPx } = sizeInPixels(capture);
  return (
    <div class="capture-view">
      <div class="capture-view-picture">
        <img src={`/captures/${capture.id}/view.jpg`} alt={alt} width={widthPx} height={heightPx} loading="lazy" />
        {outlines.length > 0 ? <OutlineOverlay widthPx={widthPx} heightPx={heightPx} outlines={outlines} /> : null}
      </div>
    </div>
  );
}
