import { MEASURE_NAMES } from "#domain/measure/catalogue.ts";
import { table } from "../results-file.ts";
import type { Followed } from "./followed.ts";
import { name, shown } from "./shown.ts";

/** Every measure with every ladder that it was read on, a line each, in the order of the catalogue. */
export function summaryTable(followed: readonly Followed[]): string {
  const rows = MEASURE_NAMES.flatMap((measure) =>
    followed
      .filter((each) => each.measure === measure)
      .map(({ defect, correlation, middleError, worstError, within, withSpread, absent, all }) => [
        name(measure),
        defect,
        Number.isNaN(correlation) ? "–" : correlation.toFixed(2),
        shown(measure, middleError, "–"),
        shown(measure, worstError, "–"),
        withSpread > 0 ? `${within} of ${withSpread}` : "–",
        absent > 0 ? `${absent} of ${all}` : "",
      ]),
  );
  return table(["measure", "drawn defect", "rank correlation", "middle error", "worst error", "within twice its ±", "absent"], rows);
}
