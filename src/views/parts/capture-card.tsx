import type { Child } from "hono/jsx";
import type { Capture, Original } from "#domain/capture/capture.ts";
import { METHOD_LABELS } from "#domain/capture/method.ts";
import { FileName } from "./file-name.tsx";
import { PrintThumbnail } from "./print-thumbnail.tsx";

export type ShownCapture = Capture & { readonly original: Original; readonly name: string };

/** A capture as a small picture with its file name and method; more may stand below. */
export function CaptureCard({ capture, children }: { capture: ShownCapture; children?: Child }) {
  return (
    <article class="capture-card">
      <a href={`/captures/${capture.id}`}>
        <PrintThumbnail captureId={capture.id} title={capture.name} />
        <span class="capture-name">
          <FileName name={capture.name} />
        </span>
      </a>
      <p class="small soft">{methodInWords(capture)}</p>
      {children}
    </article>
  );
}

export function methodInWords({ method, methodBasis }: Pick<Capture, "method" | "methodBasis">): string {
  if (method === null) return "Method not known";
  return methodBasis === "guessed" ? `${METHOD_LABELS[method]} (guessed from the file)` : METHOD_LABELS[method];
}

/** The capture's own size in pixels: of the part of the file that it is, or of the whole. */
export function sizeInPixels(capture: ShownCapture): { widthPx: number; heightPx: number } {
  return capture.region
    ? { widthPx: capture.region.width, heightPx: capture.region.height }
    : { widthPx: capture.original.widthPx, heightPx: capture.original.heightPx };
}
