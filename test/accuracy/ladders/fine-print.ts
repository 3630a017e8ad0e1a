import type { GridPlane } from "#domain/measure/planes/grid-plane.ts";
import { drawFinePrint } from "../../fixtures/fine-captures.ts";

let last: { readonly seed: number; readonly print: GridPlane } | null = null;

/** The print of fine detail that a seed draws; the last one is kept, since its drawing takes longer than a capture of it. */
export function finePrintOf(seed: number): GridPlane {
  if (last?.seed !== seed) last = { seed, print: drawFinePrint(seed) };
  return last.print;
}
