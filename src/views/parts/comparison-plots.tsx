import type { Curve, FocusProfiles } from "#domain/comparison/plot-lines.ts";
import type { SizeMm } from "#domain/measure/size-as-seen.ts";
import { LinePlot, type PlotLine, shortFigure } from "./line-plot.tsx";

/** What is plotted of one capture; null or empty where it was not read. */
export type Plotted = {
  readonly number: number;
  readonly label: string;
  readonly sfr: Curve | null;
  readonly lightness: Curve;
  readonly focus: FocusProfiles | null;
  readonly streaks: readonly (Curve & { readonly runs: string })[];
};

/** Where people would rather look at a line than read figures: all captures in one plot each, with their numbers as tables behind it. */
export function ComparisonPlots({ plotted, sheetMm }: { plotted: readonly Plotted[]; sheetMm: SizeMm }) {
  const lines = (of: (each: Plotted) => Curve | null | undefined, fewest = 2): PlotLine[] =>
    plotted.flatMap((each) => {
      const curve = of(each);
      return curve && curve.x.length >= fewest ? [{ label: each.label, x: curve.x, y: curve.y, stroke: each.number - 1 }] : [];
    });
  const streaks = plotted.flatMap(({ number, label, streaks }) =>
    streaks.map(({ runs, x, y }) => ({ label: `${label}: ${runs}`, x, y, stroke: number - 1 })),
  );
  const streaksTo = 1.2 * Math.max(1, ...streaks.flatMap(({ x }) => x));
  return (
    <section class="comparison-plots" aria-labelledby="plots-title">
      <details class="comparison-fold" open data-fold-on-phone>
        <summary>
          <h2 id="plots-title">Plotted</h2>
        </summary>
        <div class="comparison-plot-grid">
          <Plot
            id="plot-sfr"
            title="Contrast kept of fine patterns"
            note="The mean over the edges that were read. Where a line rises above 100 %, it was sharpened."
            lines={lines(({ sfr }) => sfr)}
            across={{ title: "cycles per mm of the print", inWords: (value) => value.toFixed(2) }}
            up={{ title: "Contrast kept", levels: [0, 0.1, 0.5, 1], inWords: (value) => `${shortFigure(100 * value)} %` }}
          />
          <Plot
            id="plot-lightness"
            title="How light the picture is"
            note="How much of the picture has each lightness, as captured. What is heaped at either end is clipped or nearly so."
            lines={lines(({ lightness }) => lightness)}
            across={{ title: "lightness, L*", to: 100, inWords: shortFigure }}
            up={{ title: "Share of the picture", inWords: (value) => `${shortFigure(value)} %` }}
          />
          <Plot
            id="plot-focus-across"
            title="Sharpness from left to right"
            note="Read along the upper and lower edges. A line that falls to one side shows a capture that was not parallel, or not flat."
            lines={lines(({ focus }) => focus?.across)}
            across={{ title: "mm from the print's left", to: sheetMm.widthMm, inWords: shortFigure }}
            up={{ title: "SFR 50 %, cycles per mm", inWords: shortFigure }}
          />
          <Plot
            id="plot-focus-down"
            title="Sharpness from top to bottom"
            note="Read along the left and right edges."
            lines={lines(({ focus }) => focus?.down)}
            across={{ title: "mm from the print's top", to: sheetMm.heightMm, inWords: shortFigure }}
            up={{ title: "SFR 50 %, cycles per mm", inWords: shortFigure }}
          />
          <Plot
            id="plot-focus-inside-across"
            title="Sharpness inside the picture, from left to right"
            note={OF_CONTENT}
            lines={lines(({ focus }) => focus?.insideAcross)}
            across={{ title: "mm from the print's left", to: sheetMm.widthMm, inWords: shortFigure }}
            up={{ title: "SFR 50 %, cycles per mm", inWords: shortFigure }}
          />
          <Plot
            id="plot-focus-inside-down"
            title="Sharpness inside the picture, from top to bottom"
            note={OF_CONTENT}
            lines={lines(({ focus }) => focus?.insideDown)}
            across={{ title: "mm from the print's top", to: sheetMm.heightMm, inWords: shortFigure }}
            up={{ title: "SFR 50 %, cycles per mm", inWords: shortFigure }}
          />
          <Plot
            id="plot-streaks"
            title="Streaks"
            note="How strong each streak is and where it lies: a dirty strip or lamp stays at the same place of the device."
            lines={streaks}
            across={{ title: "mm from the edge of the frame", to: streaksTo, inWords: shortFigure }}
            up={{ title: "Difference in L*", inWords: shortFigure }}
          />
        </div>
      </details>
    </section>
  );
}

const OF_CONTENT =
  "By the fine detail of the picture. It may be soft of itself in places: where the lines of all captures bend alike, the picture does; where one bends otherwise, that capture does.";

type PlotProps = { id: string; title: string; note: string } & Pick<Parameters<typeof LinePlot>[0], "lines" | "across" | "up">;

/** Nothing where no capture has it. */
const Plot = ({ id, title, note, lines, ...axes }: PlotProps) =>
  lines.length === 0 ? null : (
    <section class="card" aria-labelledby={id}>
      <h3 id={id}>{title}</h3>
      <p class="small">{note}</p>
      <LinePlot lines={lines} said={title} {...axes} />
    </section>
  );
