import { findFormat, type PrintFormat } from "#domain/print/format.ts";
import { sizeInMm } from "../format/millimetres.ts";

/** The nominal size of the chosen format, with who says so and what is unsure about it. */
export function FormatFacts({ formatId }: { formatId: string }) {
  const format = findFormat(formatId);
  return (
    <div id="format-facts" class="format-facts field-wide" aria-live="polite">
      {format === null ? (
        <p class="hint">
          A format stands for the size until somebody measures. <a href="/formats">All formats with their sizes, sources and doubts</a>
        </p>
      ) : (
        <>
          <p>
            <strong>{format.name}</strong>, nominal: {nominalInWords(format)}
          </p>
          <p class="hint">
            Source: {format.source}.{format.doubt === null ? "" : ` Doubt: ${format.doubt}`} Measure the print where you can.
          </p>
        </>
      )}
    </div>
  );
}

/** sheet 88.5 × 107.5 mm (± 1 mm), image 78.9 × 76.8 mm */
function nominalInWords(format: PrintFormat): string {
  const sheet = `sheet ${sizeInMm(format.sheetWidthMm, format.sheetHeightMm)} (± ${format.toleranceMm} mm)`;
  if (format.imageWidthMm === null || format.imageHeightMm === null) return sheet;
  return `${sheet}, image ${sizeInMm(format.imageWidthMm, format.imageHeightMm)}`;
}
