import sharp from "sharp";
import { seeded } from "./random.ts";

/** Single strokes of capitals and figures on a grid 4 wide and 6 high; "xy" per point, "|" lifts the pen. No font file is needed. */
const STROKES: Readonly<Record<string, string>> = {
  A: "06 20 46|14 34",
  B: "06 00 30 41 33 03|33 44 45 36 06",
  C: "41 30 10 01 05 16 36 45",
  D: "06 00 20 42 44 26 06",
  E: "40 00 06 46|03 33",
  F: "40 00 06|03 33",
  G: "41 30 10 01 05 16 36 45 43 23",
  H: "00 06|40 46|03 43",
  I: "20 26",
  J: "30 35 26 16 05",
  K: "00 06|40 03 46",
  L: "00 06 46",
  M: "06 00 23 40 46",
  N: "06 00 46 40",
  O: "10 30 41 45 36 16 05 01 10",
  P: "06 00 30 41 42 33 03",
  Q: "10 30 41 45 36 16 05 01 10|24 46",
  R: "06 00 30 41 42 33 03|23 46",
  S: "41 30 10 01 02 13 33 44 45 36 16 05",
  T: "00 40|20 26",
  U: "00 05 16 36 45 40",
  V: "00 26 40",
  W: "00 16 23 36 40",
  X: "00 46|40 06",
  Y: "00 23 40|23 26",
  Z: "00 40 06 46",
  "0": "10 30 41 45 36 16 05 01 10",
  "1": "11 20 26",
  "2": "01 10 30 41 42 06 46",
  "3": "00 40 22 33 44 45 36 16 05",
  "4": "36 30 04 44",
  "5": "40 00 02 32 43 45 36 06",
  "6": "40 10 02 05 16 36 45 44 33 13 04",
  "7": "00 40 16",
  "8": "13 02 01 10 30 41 42 33 13 04 05 16 36 45 44 33",
  "9": "06 36 44 41 30 10 01 02 13 33 42",
  ".": "26 26",
  ",": "25 17",
  "-": "13 33",
  "'": "20 11",
  "&": "46 01 10 20 21 04 05 16 26 44",
};

export type Line = {
  readonly text: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly heightMm: number;
  readonly strokeMm: number;
  /** how unsteady the hand is; 0 for type */
  readonly unsteady: number;
  readonly slopeDegrees?: number;
};

/** Where the pen has been: coverage 0..1 for every pixel of the sheet, row by row. */
export async function penned(lines: readonly Line[], widthPx: number, heightPx: number, pxPerMm: number): Promise<Float32Array> {
  const paths = lines.map((line) => {
    const turn = `rotate(${line.slopeDegrees ?? 0} ${(line.xMm * pxPerMm).toFixed(2)} ${(line.yMm * pxPerMm).toFixed(2)})`;
    return `<path d="${pathOf(line, pxPerMm)}" transform="${turn}" stroke-width="${(line.strokeMm * pxPerMm).toFixed(2)}"/>`;
  });
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}"><rect width="100%" height="100%" fill="#000"/><g fill="none" stroke="#fff" stroke-linecap="round" stroke-linejoin="round">${paths.join("")}</g></svg>`;
  const { data, info } = await sharp(Buffer.from(svg)).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  return Float32Array.from({ length: widthPx * heightPx }, (_, i) => (data[i * info.channels] as number) / 255);
}

function pathOf(line: Line, pxPerMm: number): string {
  const random = seeded(line.text.length * 977 + Math.round(line.xMm * 10));
  const unit = (line.heightMm / 6) * pxPerMm;
  const wobble = (): number => (random() - 0.5) * line.unsteady * unit;
  const parts: string[] = [];
  [...line.text.toUpperCase()].forEach((letter, place) => {
    const strokes = STROKES[letter];
    if (!strokes) return;
    const rise = wobble() * 2;
    for (const stroke of strokes.split("|")) {
      const points = stroke.split(" ").map((point) => {
        const x = line.xMm * pxPerMm + (place * 5.6 + Number(point[0])) * unit + wobble();
        const y = line.yMm * pxPerMm + Number(point[1]) * unit + rise + wobble();
        return `${x.toFixed(2)} ${y.toFixed(2)}`;
      });
      parts.push(`M${points.join("L")}`);
    }
  });
  return parts.join("");
}
