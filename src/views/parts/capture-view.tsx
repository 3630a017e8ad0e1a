import type { Child } from "hono/jsx";
import { type ShownCapture, sizeInPixels } from "./capture-card.tsx";
import { OutlineOverlay, type ShownOutline } from "./outline-overlay.tsx";

/**
 * A capture large on neutral grey, with what is drawn over it: the prints found, unless something else is given.
 * @param props.id where corners are dragged over it (client/corners.js)
 */
export function CaptureView(props: {
  capture: ShownCapture;
  outlines: readonly ShownOutline[];
  alt: string;
  id?: string;
  children?: Child;
}) {
  const { capture, outlines, alt, children } = props;
  const { widthPx, heightPx } = sizeInPixels(capture);
  const found = outlines.length > 0 ? <OutlineOverlay widthPx={widthPx} heightPx={heightPx} outlines={outlines} /> : null;
  return (
    <div class="capture-view">
      <div
        class="capture-view-picture"
        id={props.id}
        data-width-px={props.id && String(widthPx)}
        data-height-px={props.id && String(heightPx)}
        data-close-up={props.id && `/captures/${capture.id}/close-up.jpg`}
      >
        <img src={`/captures/${capture.id}/view.jpg`} alt={alt} width={widthPx} height={heightPx} loading="lazy" />
        {children ?? found}
      </div>
    </div>
  );
}
