import sharp from "sharp";
import { captureSheet, SMALL } from "../../fixtures/captured-sheet.ts";
import { savedAsJpeg } from "../../fixtures/jpeg-saves.ts";
import type { Ladder } from "../ladder.ts";

const CONTENTS = ["scene", "pale-wall", "night"] as const;
const LEVELS = [95, 90, 85, 80, 75, 70, 60];

/** Files that another library wrote at each quality: a JPEG's tables hang on that alone, not on what it shows. */
const FILES = new Map<number, Uint8Array>();
for (const quality of LEVELS)
  FILES.set(
    quality,
    await sharp({ create: { width: 16, height: 16, channels: 3, background: "#808080" } })
      .jpeg({ quality })
      .toBuffer(),
  );

export const jpegQualityLadder: Ladder = {
  defect: "saved as JPEG once, ever more coarsely",
  reads: [{ measure: "jpegQuality", truth: (level) => level }],
  levels: LEVELS,
  levelUnit: "of 100",
  draw: (level, seed) => {
    const drawn = captureSheet({
      seed,
      known: { fileKind: "jpeg", jpegHeader: FILES.get(level) ?? null },
      print: { ...SMALL, content: CONTENTS[seed % CONTENTS.length] ?? "scene" },
    });
    return { ...drawn, picture: savedAsJpeg(drawn.picture, level) };
  },
};
