import { type ShownCapture, sizeInPixels } from "../parts/capture-card.tsx";
import { CaptureView } from "../parts/capture-view.tsx";
import { CornerFields } from "../parts/corner-editor.tsx";
import type { FormState } from "../parts/field.tsx";
import { FileName } from "../parts/file-name.tsx";
import { Layout } from "../parts/layout.tsx";
import { Notice } from "../parts/notice.tsx";
import type { ShownOutline } from "../parts/outline-overlay.tsx";
import { Refusals } from "../parts/refusals.tsx";

export type OutlinePageProps = {
  collectionName: string;
  capture: ShownCapture;
  /** where the sheet lies by the form, so that it is seen without a script too */
  outline: ShownOutline | null;
  /** false where the corners are a first guess, because none were found */
  isFound: boolean;
  isSaid: boolean;
  form: FormState;
};

/** The corners of one print, set by a person where they were found wrong or not at all. */
export const OutlinePage = ({ collectionName, capture, outline, isFound, isSaid, form }: OutlinePageProps) => {
  const { widthPx, heightPx } = sizeInPixels(capture);
  const pictureId = "outline-picture";
  return (
    <Layout title={`Outline of ${capture.name}`} section="prints" collectionName={collectionName} scripts={["corners.js"]}>
      <div class="page">
        <header class="page-head">
          <div>
            <p>
              <a href={`/captures/${capture.id}`}>
                <FileName name={capture.name} />
              </a>
            </p>
            <h1>Outline of the sheet</h1>
          </div>
        </header>
        {isFound || isSaid ? null : (
          <Notice level="caution">
            <p>No print was found in this capture. The corners stand at a first guess: move each onto its corner of the sheet.</p>
          </Notice>
        )}
        <div class="overlays">
          <CaptureView
            id={pictureId}
            capture={capture}
            outlines={outline ? [outline] : []}
            alt={`Capture of ${widthPx} × ${heightPx} pixels with the outline of its sheet`}
          />
          <div class="stack">
            <form class="card assign" method="post" action={`/captures/${capture.id}/outline`} data-corners-of={pictureId} novalidate>
              <p>{isSaid ? "Set by a person." : isFound ? "Found by measuring." : "Not found by measuring."}</p>
              <p class="hint">
                Drag the corners, or move them with the arrow keys (ten times as far with Shift), or type them. What you set is kept, wins
                over what is found, and the capture is measured anew with it.
              </p>
              <CornerFields of={capture.id} part={1} typed={form.typed} refusals={form.refusals} isOpen title="Corners, in pixels" />
              <p class="actions">
                <button class="button" type="submit">
                  Keep this outline
                </button>
                <a href={`/captures/${capture.id}`}>Leave it as it was</a>
              </p>
            </form>
            {isSaid ? (
              <form class="card" method="post" action={`/captures/${capture.id}/outline/reset`}>
                <p>Let measuring find the outline again, and forget the corners set by hand.</p>
                <p class="actions">
                  <button class="button button-quiet" type="submit">
                    Go back to the outline found
                  </button>
                </p>
              </form>
            ) : null}
            <Refusals refusals={form.refusals.filter(({ about }) => about !== "part1-corners")} />
          </div>
        </div>
      </div>
    </Layout>
  );
};
