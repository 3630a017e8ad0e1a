import type { Child } from "hono/jsx";
import type { Capture, Original } from "#domain/capture/capture.ts";
import { METHOD_LABELS } from "#domain/capture/method.ts";

export type ShownCapture = Capture & { readonly original: Original };

/** A capture as a small picture with its name and method; more may stand below. */
export function CaptureCard({ capture, mark, children }: { capture: ShownCapture; mark?: string; children?: Child }) {
  return (
    <article class="capture-card">
      <a class="picture-frame" href={`/captures/${capture.id}`}>
        <img src={`/captures/${capture.id}/thumbnail.jpg`} alt={`Capture ${capture.original.originalName}`} loading="lazy" />
      </a>
      <h3 class="capture-name">
        <a href={`/captures/${capture.id}`}>{capture.original.originalName}</a>
      </h3>
      <p class="hint">{methodInWords(capture)}</p>
      {mark ? <p class="mark">{mark}</p> : null}
      {children}
    </article>
  );
}

export function methodInWords({ method, methodBasis }: Pick<Capture, "method" | "methodBasis">): string {
  if (method === null) return "Method not known";
  return methodBasis === "guessed" ? `${METHOD_LABELS[method]} (guessed from the file)` : METHOD_LABELS[method];
}

/** The capture's own size in pixels: the part of the file that it is, or the whole. */
export function sizeInPixels(capture: ShownCapture): { widthPx: number; heightPx: number } {
  return capture.region
    ? { widthPx: capture.region.width, heightPx: capture.region.height }
    : { widthPx: capture.original.widthPx, heightPx: capture.original.heightPx };
}
