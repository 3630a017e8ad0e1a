import type { AimLimit } from "../aim/aim.ts";
import { advantage, loudestFor, type Part } from "./advantage.ts";
import type { Ruling } from "./judgement.ts";

type Decisive = { readonly decisive: string | null; readonly decidedByBound: boolean };

/**
 * The measure that speaks loudest for the master against the runner-up, null where nothing does; and whether its bounds leave open which
 * of the two is better in it: the true value may lie any way beyond a bound.
 */
export function decisiveMeasure({ verdicts, masterId, runnerUpId }: Ruling, aim: readonly AimLimit[]): Decisive {
  const nothing = { decisive: null, decidedByBound: false };
  const [master, runnerUp] = [masterId, runnerUpId].map((id) => verdicts.find(({ captureId }) => captureId === id));
  if (!master || !runnerUp) return nothing;
  const limits = aim.filter(({ provedBy }) => provedBy === "print");
  const loudest = loudestFor(advantage(master, runnerUp, limits));
  const limit = limits.find(({ measure }) => measure === loudest?.measure);
  if (!loudest || !limit) return nothing;
  return { decisive: loudest.measure, decidedByBound: mayBeWorse(limit, loudest.one) || mayBeBetter(limit, loudest.other) };
}

function mayBeWorse({ sense }: AimLimit, { bound }: Part["one"]): boolean {
  // a range is left on its other side
  if (bound === null || sense === "between") return bound !== null;
  return bound === (sense === "at-most" ? "lower" : "upper");
}

function mayBeBetter({ sense, best }: AimLimit, { value, bound }: Part["other"]): boolean {
  const better = sense === "at-least" || (sense === "between" && value < best) ? "lower" : "upper";
  return bound === better;
}
