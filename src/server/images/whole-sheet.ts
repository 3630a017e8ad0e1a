import { frameOf, type Region } from "#domain/capture/capture.ts";
import { type SheetInFrame, type StraightenedSheet, straightenedSheet } from "#domain/comparison/straightened-sheet.ts";
import { originalPath } from "../collection-folder.ts";
import type { Context } from "../context.ts";
import { type Fault, runAlone, Thread } from "../work/thread.ts";
import { turns } from "../work/turns.ts";
import type { SheetOfCapture } from "./sheet-of-capture.ts";

/** How large a sheet of a capture is, straightened whole. */
export const sizeOfWhole = (shown: SheetOfCapture): StraightenedSheet => straightenedSheet(inFrame(shown));

/** Of their own, since the largest take minutes, and every small picture of other pages would wait behind one. */
const inTurn = turns();

/** The sheet straightened from the original's own pixels, as PNG; null where the capture cannot be decoded. In a thread of its own, one after another. */
export function wholeSheet(context: Context, shown: SheetOfCapture): Promise<Uint8Array<ArrayBuffer> | Fault | null> {
  const { original } = shown.capture;
  const file = { path: originalPath(context.folder, original.sha256), kind: original.kind };
  return inTurn(async () => {
    const job = { kind: "straighten", original: file, within: within(shown), sheet: inFrame(shown) } as const;
    const answer = await runAlone(new Thread(), job, context.ending);
    if ("straightened" in answer) return answer.straightened;
    if (!("fault" in answer)) return null;
    console.error(answer.fault);
    return answer;
  });
}

const within = ({ capture }: SheetOfCapture): Region => {
  const { widthPx, heightPx } = frameOf(capture);
  return { left: capture.region?.left ?? 0, top: capture.region?.top ?? 0, width: widthPx, height: heightPx };
};

const inFrame = (shown: SheetOfCapture): SheetInFrame => {
  const { widthMm, heightMm } = shown.sheetMm ?? {};
  const sheetMm = widthMm !== undefined && heightMm !== undefined ? { widthMm, heightMm } : null;
  return { quad: shown.quad, radial: shown.radial, frame: within(shown), sheetMm };
};
