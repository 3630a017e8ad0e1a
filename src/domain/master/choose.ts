import type { AimLimit } from "../aim/aim.ts";
import { advantage } from "./advantage.ts";
import type { Judgement, Ruling } from "./judgement.ts";
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
    decisive: decisiveMeasure(ruling, aim),
    turn: turningPoint(candidates, aim, ruling),
  };
}

/** The measure that speaks loudest for the master against the runner-up; null where nothing does. */
function decisiveMeasure({ verdicts, masterId, runnerUpId }: Ruling, aim: readonly AimLimit[]): string | null {
  const [master, runnerUp] = [masterId, runnerUpId].map((id) => verdicts.find(({ captureId }) => captureId === id));
  if (!master || !runnerUp) return null;
  const [loudest] = advantage(
    master,
    runnerUp,
    aim.filter((limit) => limit.provedBy === "print"),
  ).parts;
  return loudest && loudest.weighs > 0 ? loudest.measure : null;
}
