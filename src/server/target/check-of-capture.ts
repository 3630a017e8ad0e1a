import type { Capture } from "#domain/capture/capture.ts";
import { provesToneAndColour } from "#domain/target/passed.ts";
import { findAim } from "#drizzle/queries/aims.ts";
import { checkFor, type TargetCheck } from "#drizzle/queries/target-checks.ts";
import type { Context } from "../context.ts";

type Made = Pick<Capture, "setUpId"> & { readonly original: { readonly capturedAt: string | null } };

/** The target check that speaks for a capture: of its set-up, on its day or the last one before. */
export const checkOfCapture = ({ db }: Pick<Context, "db">, { setUpId, original }: Made): TargetCheck | null =>
  setUpId === null ? null : checkFor(db, setUpId, original.capturedAt?.slice(0, 10) ?? null);

/** True where that check shows tones and colours within what preservation masters are asked. */
export function hasPassedTargetCheck(context: Pick<Context, "db">, capture: Made): boolean {
  const check = checkOfCapture(context, capture);
  if (!check) return false;
  const limits = findAim(context.db, "preservation-master")?.limits ?? [];
  return provesToneAndColour(check.read.readings, limits);
}
