import { z } from "zod";
import type { Aim } from "./aim.ts";
import { aimInput } from "./aim-input.ts";

/** An aim as a file of its own, to be handed from collection to collection. */
export const aimFileSchema = z
  .strictObject({
    format: z.literal("solander-aim", "This is no file of an aim: its format is not solander-aim."),
    formatVersion: z.literal(1, "This file was written by a newer program, or by another."),
    ...aimInput.shape,
    edition: z
      .string()
      .max(1000, "Keep this under 1000 letters.")
      .default("Own figures.")
      .meta({ description: "the published tables that the figures come from, with their editions" }),
  })
  .meta({ title: "Aim", description: "What a purpose asks of the captures of a print: limits, weights and requirements by measure." });

export type AimFile = z.output<typeof aimFileSchema>;

/** The aim of a purpose as a file holds it. */
export const aimFile = ({ purpose, name, edition, limits }: Omit<Aim, "id" | "version">): AimFile => ({
  format: "solander-aim",
  formatVersion: 1,
  name: purpose.name,
  note: purpose.note ?? "",
  asks: name,
  edition,
  limits: Object.fromEntries(limits.map(({ measure, provedBy: _, ...limit }) => [measure, limit])) as AimFile["limits"],
});
