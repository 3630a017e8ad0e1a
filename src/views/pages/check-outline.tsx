import { FrameView } from "../parts/capture-view.tsx";
import { CornerFields } from "../parts/corner-editor.tsx";
import type { FormState } from "../parts/field.tsx";
import { FileName } from "../parts/file-name.tsx";
import { Layout } from "../parts/layout.tsx";
import { Notice } from "../parts/notice.tsx";
import type { ShownOutline } from "../parts/outline-overlay.tsx";
import { RefusalSummary } from "../parts/refusal-summary.tsx";

export type CheckOutlinePageProps = {
  collectionName: string;
  check: { readonly id: number; readonly setUpId: number; readonly targetName: string; readonly isRead: boolean };
  setUpName: string;
  picture: { readonly fileName: string; readonly widthPx: number; readonly heightPx: number };
  /** where the target lies by the form, so that it is seen without a script too */
  outline: ShownOutline | null;
  /** somebody has set them before */
  isSaid: boolean;
  form: FormState;
};

/** The corners of a target, set by a person where they were found wrong or not at all. */
export function CheckOutlinePage({ collectionName, check, setUpName, picture, outline, isSaid, form }: CheckOutlinePageProps) {
  const pictureId = "outline-picture";
  const { fileName, widthPx, heightPx } = picture;
  return (
    <Layout title={`Corners of ${check.targetName}`} section="add" collectionName={collectionName} scripts={["corners.js"]}>
      <div class="page">
        <header class="page-head">
          <div>
            <p>
              <a href={`/set-ups/${check.setUpId}/checks`}>Target checks of {setUpName}</a>
            </p>
            <h1>Corners of the target</h1>
            <p>
              {check.targetName}, <FileName name={fileName} />
            </p>
          </div>
        </header>
        <RefusalSummary
          refusals={form.refusals.filter(({ about }) => about !== "part1-corners").map((each) => ({ ...each, about: null }))}
          labels={{}}
          title="Not read with these corners."
        />
        {check.isRead ? null : (
          <Notice level="caution">
            <p>
              The target was not found in this picture, so nothing was read yet. The corners stand at a first guess: move each onto its
              corner of the target, clockwise from the top left as the picture shows them. If this is no picture of that target, take the
              check out on the page of its set-up.
            </p>
          </Notice>
        )}
        <div class="overlays">
          <FrameView
            id={pictureId}
            path={`/target-checks/${check.id}`}
            widthPx={widthPx}
            heightPx={heightPx}
            outlines={outline ? [outline] : []}
            alt={`Picture of ${widthPx} × ${heightPx} pixels with the outline of the target`}
          />
          <form class="card assign" method="post" action={`/target-checks/${check.id}/outline`} data-corners-of={pictureId} novalidate>
            <p class="hint">
              {isSaid ? "" : "They stand at a first guess. "}Drag the corners, or move them with the arrow keys (ten times as far with
              Shift), or type them. The target is read anew within them, which takes some seconds.
            </p>
            <CornerFields of={check.id} part={1} typed={form.typed} refusals={form.refusals} isOpen title="Corners, in pixels" />
            <p class="actions">
              <button class="button" type="submit">
                Read it with these corners
              </button>
              <a href={`/set-ups/${check.setUpId}/checks`}>Leave it as it is</a>
            </p>
          </form>
        </div>
      </div>
    </Layout>
  );
}
