import type { AimLimit } from "../aim/aim.ts";
import { decisiveMeasure } from "./decisive.ts";
import type { Judgement } from "./judgement.ts";
import { type Candidate, rule } from "./rule.ts";
import { SURE_ENOUGH, sureness } from "./sureness.ts";
import { turningPoint } from "./turning-point.ts";

export type { Candidate } from "./rule.ts";

/** The master among the captures of one side of a print by the rule, how sure that is, what decided it, and what would turn it. */
export function choose(candidates: readonly Candidate[], aim: readonly AimLimit[]): Judgement {
  const ruling = rule(candidates, aim);
  const sure = sureness(candidates, aim, ruling);
  return {
    ...ruling,
    sureness: sure,
    closeCall: sure !== null && sure < SURE_ENOUGH,
    ...decisiveMeasure(ruling, aim),
    turn: turningPoint(candidates, aim, ruling),
  };
}
