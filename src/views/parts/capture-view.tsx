import type { Child } from "hono/jsx";
import { type ShownCapture, sizeInPixels } from "./capture-card.tsx";
import { OutlineOverlay, type ShownOutline } from "./outline-overlay.tsx";

type Drawn = {
  outlines: readonly ShownOutline[];
  alt: string;
  /** where corners are dragged over it (client/corners.js) */
  id?: string;
  children?: Child;
};

/** A capture large on neutral grey, with what is drawn over it: the prints found, unless something else is given. */
export const CaptureView = ({ capture, ...drawn }: Drawn & { capture: ShownCapture }) => (
  <FrameView path={`/captures/${capture.id}`} {...sizeInPixels(capture)} {...drawn} />
);

/**
 * The same of any picture that has a view, and a close-up where corners are dragged.
 * @param props.path the address that both stand under
 */
export function FrameView(props: Drawn & { path: string; widthPx: number; heightPx: number }) {
  const { path, widthPx, heightPx, outlines, alt, id, children } = props;
  const found = outlines.length > 0 ? <OutlineOverlay widthPx={widthPx} heightPx={heightPx} outlines={outlines} /> : null;
  return (
    <div class="capture-view">
      <div
        class="capture-view-picture"
        id={id}
        data-width-px={id && String(widthPx)}
        data-height-px={id && String(heightPx)}
        data-close-up={id && `${path}/close-up.jpg`}
      >
        <img src={`${path}/view.jpg`} alt={alt} width={widthPx} height={heightPx} loading="lazy" />
        {children ?? found}
      </div>
    </div>
  );
}
