import { cornersOf, SIDES } from "#domain/measure/lines.ts";
import type { Drawing, ShownOverlay } from "#views/parts/overlays.tsx";
import { absent, figure, inMm, type Seen } from "./seen.ts";

export function outlineOverlay({ outline, ...seen }: Seen): ShownOverlay {
  if (!outline) return absent("outline", "The print's outline was not found in this capture.");
  const kinds = SIDES.map((side) => outline.sides[side]);
  const count = (kind: (typeof kinds)[number]) => kinds.filter((each) => each === kind).length;
  const doubted = outline.doubted?.length ?? 0;
  const mm = inMm(outline.cornerSpreadPx, seen);
  const words = [
    outline.isSaid ? "Set by hand" : `${count("seen")} of 4 sides found as edges of the sheet`,
    ...(doubted > 0 ? [`${doubted} along an edge that may be something else's (dashed)`] : []),
    ...(count("assumed") > doubted ? [`${count("assumed") - doubted} assumed (dashed)`] : []),
    ...(count("cut-off") > 0 ? [`${count("cut-off")} cut off by the frame (dotted)`] : []),
    `corners sure to about ${figure(outline.cornerSpreadPx)} px${mm === null ? "" : ` (${figure(mm)} mm)`}`,
  ];
  const drawing: Drawing = { kind: "outline", outline: { ...outline, image: null }, cornerSpreadPx: outline.cornerSpreadPx };
  return { id: "outline", words: `${words.join(", ")}.`, isOn: true, isHint: false, drawing };
}

export function pictureOverlay({ outline }: Seen): ShownOverlay {
  if (!outline?.image) return absent("picture", "No border was told apart, so the picture is taken to fill the sheet.");
  const words = "Where the picture ends and its border begins.";
  return { id: "picture", words, isOn: true, isHint: false, drawing: { kind: "picture", corners: cornersOf(outline.image) } };
}
