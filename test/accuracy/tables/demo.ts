import { DEMO_CAPTURES_OF_ONE, DEMO_DEFECTS, DEMO_FIGURES, type DemoRead } from "../ladders/demo.ts";
import { table } from "../results-file.ts";
import { middleOf } from "../statistics.ts";
import { errorOf, followedBy, type Pair } from "./followed.ts";
import { name, shown } from "./shown.ts";

/** How figures follow the truth that the other drawing program keeps, and which drawn defects are told, as Markdown. */
export function demoTables(reads: readonly DemoRead[]): string {
  return [figuresTable(reads), defectsTable(reads)].join("\n\n");
}

type Seen = Pair & { readonly file: string };

function figuresTable(reads: readonly DemoRead[]): string {
  const rows = DEMO_FIGURES.map(({ measure, truth }) => {
    const pairs = reads.flatMap(({ file, told }): Seen[] => {
      const sheet = DEMO_CAPTURES_OF_ONE.find((capture) => capture.file === file)?.truth[0];
      return sheet ? [{ file, level: 0, truth: truth(sheet), told: told[measure] }] : [];
    });
    const { correlation, middleError, worstError, within, withSpread, absent, all } = followedBy(measure, "", pairs);
    const worst = pairs.find((pair) => errorOf(pair) === worstError);
    return [
      name(measure),
      correlation.toFixed(2),
      shown(measure, middleError, "–"),
      `${shown(measure, worstError, "–")}${worst ? ` (${worst.file}: ${shown(measure, worst.told?.value)} for ${shown(measure, worst.truth)})` : ""}`,
      withSpread > 0 ? `${within} of ${withSpread}` : "–",
      `${absent} of ${all}`,
    ];
  });
  return table(["measure", "rank correlation", "middle error", "worst error", "within twice its ±", "absent"], rows);
}

function defectsTable(reads: readonly DemoRead[]): string {
  const rows = DEMO_DEFECTS.map(({ what, measure, isDrawn }) => {
    const of = (drawn: boolean) => {
      const here = reads.filter(({ file }) => DEMO_CAPTURES_OF_ONE.some((capture) => capture.file === file && isDrawn(capture) === drawn));
      const read = here.flatMap(({ told: { [measure]: told } }) => told ?? []);
      const found = read.filter(({ value }) => shown(measure, value) !== shown(measure, 0));
      const weak = found.filter(({ reliability }) => reliability === "weak").length;
      const values = found.map(({ value }) => value);
      return [
        [
          `${found.length} of ${here.length}`,
          ...(weak > 0 ? [`${weak} of them as a hint only`] : []),
          ...(read.length < here.length ? [`${here.length - read.length} absent`] : []),
        ].join(", "),
        values.length > 0 ? `${shown(measure, middleOf(values))} (most ${shown(measure, Math.max(...values))})` : "",
      ];
    };
    return [what, name(measure), ...of(true), ...of(false)];
  });
  return table(["drawn", "measure", "told where it was drawn", "middle of these", "told where it was not", "middle of these"], rows);
}
