import { z } from "zod";
import { valueInWords } from "#domain/aim/measure-words.ts";
import { centreOf } from "#domain/measure/lines.ts";
import type { Point } from "#domain/measure/picture.ts";
import { isPresent } from "#domain/measure/reading.ts";
import type { ShownOverlay } from "#views/parts/overlays.tsx";
import { absent, notRead, readingOf, type Seen } from "./seen.ts";

const light = z.object({
  corners: z.object({ topLeft: z.number(), topRight: z.number(), bottomRight: z.number(), bottomLeft: z.number() }),
  centre: z.number(),
});

/** The light at the corners of the sheet, in percent of the brightest of them. */
export function evennessOverlay(seen: Seen): ShownOverlay {
  const loss = readingOf(seen, "evennessPercent");
  if (!loss || !isPresent(loss)) return notRead("evenness", loss);
  const spread = readingOf(seen, "borderLightnessSpreadPercent");
  const read = light.safeParse(isPresent(spread) ? spread.detail : null);
  const words = `The darkest place of the border gets ${valueInWords(loss.name, loss.value)} less light than the brightest.`;
  if (!read.success || !seen.outline) return absent("evenness", words);
  const { sheet } = seen.outline;
  const { corners } = read.data;
  const brightest = Math.max(...Object.values(corners));
  const figures = (["topLeft", "topRight", "bottomRight", "bottomLeft"] as const).map((corner) => ({
    at: between(sheet[corner], centreOf(sheet), 0.1),
    text: `${Math.round((100 * corners[corner]) / brightest)} %`,
  }));
  return {
    id: "evenness",
    words: `${words} The figures are the light at the corners, in percent of the brightest.`,
    isOn: false,
    isHint: loss.reliability === "weak",
    drawing: { kind: "figures", figures },
  };
}

const between = (from: Point, to: Point, share: number): Point => ({
  x: from.x + (to.x - from.x) * share,
  y: from.y + (to.y - from.y) * share,
});
