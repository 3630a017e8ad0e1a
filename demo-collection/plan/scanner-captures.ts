import { type FlatbedCapture, flatbedCapture, interferenceRings } from "../capture-model/flatbed.ts";
import type { Placed } from "../capture-model/scene.ts";
import { type SheetFedCapture, type Streak, sheetFedCapture } from "../capture-model/sheet-fed.ts";
import type { Ageing } from "../print-drawing.ts";
import { seedOf } from "../random.ts";
import { only, type PlannedCapture } from "./planned-capture.ts";

const DIRT: Streak[] = [
  { atMm: 21.3, widthPx: 2, gain: [0.93, 0.94, 0.95] },
  { atMm: 47.8, widthPx: 1.6, gain: [1.07, 1.02, 1.01] },
  { atMm: 61.2, widthPx: 3, gain: [0.97, 0.95, 0.93] },
];

export const SHEET_FED_CAPTURES: readonly PlannedCapture[] = [
  sheetFed("1938.002.01", "2021-01-09T14:00:03", "streaks, cropped close, sharpened", { turnDegrees: 0.4, streaks: DIRT.slice(0, 2) }),
  sheetFed("1938.002.02", "2021-01-09T14:01:10", "strong streaks, skewed", {
    turnDegrees: -1.3,
    streaks: DIRT.map((streak) => ({ ...streak, gain: streak.gain.map((gain) => 1 + (gain - 1) * 1.8) as unknown as Streak["gain"] })),
  }),
  sheetFed("1956.003.04", "2021-01-09T14:02:31", "automatic levels broke the soft tones", {
    turnDegrees: 0.3,
    streaks: DIRT.slice(2),
    exposure: 1.25,
    crush: 0.2,
    contrast: 0.35,
  }),
  sheetFed("1968.001.02", "2021-01-09T14:03:44", "streaks, highlights lost", { turnDegrees: 0.7, streaks: DIRT, exposure: 1.28 }),
  sheetFed("1974.004.01", "2021-01-09T14:05:12", "streaks; the thick edge slipped in the rollers", {
    turnDegrees: -0.5,
    streaks: DIRT,
    wobblePx: 3,
    stretch: 1.011,
  }),
  sheetFed("1974.004.02", "2021-01-09T14:06:20", "streaks, colour fringes", { turnDegrees: 0.6, streaks: DIRT, fringePx: 0.8 }),
  sheetFed("1976.001.01", "2021-01-09T14:07:15", "streaks, shadows lost", { turnDegrees: -0.2, streaks: DIRT, crush: 0.09 }),
  sheetFed("1978.004.12", "2021-01-09T14:08:33", "streaks", { turnDegrees: 0.9, streaks: DIRT }),
  sheetFed("1978.004.13", "2021-01-09T14:09:41", "streaks, banding", {
    turnDegrees: 0.2,
    streaks: DIRT.slice(0, 1),
    banding: { periodMm: 4.2, amplitude: 0.012 },
  }),
  sheetFed("1981.002.01", "2020-10-18T11:30:00", "banding of the transport", {
    turnDegrees: 0.1,
    streaks: [],
    ppi: 240,
    banding: { periodMm: 3.1, amplitude: 0.018 },
  }),
  sheetFed("1981.002.02", "2020-10-18T11:31:05", "streaks, low sampling", { turnDegrees: -0.8, streaks: DIRT, ppi: 200 }),
  sheetFed("1981.002.04", "2020-10-18T11:32:22", "fed crooked: a corner cut off", {
    turnDegrees: 2.1,
    streaks: DIRT.slice(1),
    ppi: 240,
    marginMm: [-1.5, -2, 1, 2],
  }),
  sheetFed("2003.001.02", "2021-01-09T14:12:00", "streaks, sharpened hard", {
    turnDegrees: 0.5,
    streaks: DIRT.slice(0, 2),
    sharpening: 1.3,
  }),
  sheetFed("2021.001.01", "2021-06-02T08:44:10", "streaks", { turnDegrees: -0.6, streaks: DIRT.slice(0, 2) }),
  {
    ...sheetFed("1976.001.01", "2021-01-09T14:07:50", "a name that says nothing; fed a second time, upside down", {
      turnDegrees: 180.4,
      streaks: DIRT,
    }),
    file: "scan0007.jpg",
  },
];

export const FLATBED_CAPTURES: readonly PlannedCapture[] = [
  flatbed("1884.001.01", "2016-03-12T10:10:00", "8 bits, JPEG", { ppi: 300, lid: "grey lid", sharpnessPx: 0.75 }),
  {
    ...flatbed("1884.001.01", "2016-03-12T10:14:00", null, { ppi: 200, lid: "grey lid", sharpnessPx: 0.7 }),
    file: "1884.001.01_back_flatbed-1.jpg",
    side: "back",
  },
  flatbed("1896.001.01", "2016-03-12T10:20:00", "dust on the glass", {
    ppi: 260,
    lid: "black card",
    sharpnessPx: 0.75,
    dust: 190,
    hairs: 3,
  }),
  flatbed("1956.003.04", "2016-03-12T10:26:00", "soft: the album leaf kept it off the glass", {
    ppi: 250,
    lid: "grey lid",
    sharpnessPx: 1.7,
    liftedBlurPx: 3,
  }),
  flatbed("1968.001.01", "2016-03-12T10:31:00", "white lid: the border is hard to tell from it", {
    ppi: 300,
    lid: "white lid",
    sharpnessPx: 0.8,
  }),
  flatbed("1972.002.01", "2016-03-12T10:40:00", "8 bits, JPEG", { ppi: 300, lid: "grey lid", sharpnessPx: 0.75 }),
  flatbed(
    "1972.002.01",
    "2024-03-16T09:05:00",
    "eight years later: a little yellower and paler, with a new stain at the lower edge",
    { ppi: 360, lid: "grey lid", sharpnessPx: 0.65 },
    { take: 2, ageing: 1 },
  ),
  flatbed(
    "1974.004.01",
    "2016-03-12T10:47:00",
    "interference rings in the sky",
    { ppi: 300, lid: "black card", sharpnessPx: 0.75, liftedBlurPx: 2.2 },
    { rings: [36, 24, 15, 0.055] },
  ),
  flatbed("1976.001.01", "2016-03-12T10:52:00", "dust and hairs on the glass", {
    ppi: 300,
    lid: "black card",
    sharpnessPx: 0.8,
    liftedBlurPx: 2,
    dust: 260,
    hairs: 7,
  }),
  {
    ...flatbed("1978.004.12", "2016-03-12T10:55:00", null, { ppi: 150, lid: "grey lid", sharpnessPx: 0.7 }),
    file: "1978.004.12_back_flatbed-1.jpg",
    side: "back",
  },
  flatbed("1978.004.13", "2016-03-12T10:58:00", "soft towards the thick end, white lid", {
    ppi: 260,
    lid: "white lid",
    sharpnessPx: 0.9,
    liftedBlurPx: 3.4,
  }),
  flatbed("1981.002.03", "2016-03-12T11:04:00", "dust on the glass", { ppi: 240, lid: "grey lid", sharpnessPx: 0.8, dust: 220, hairs: 4 }),
  flatbed("1994.001.01", "2016-03-12T11:10:00", "8 bits, JPEG", { ppi: 250, lid: "white lid", sharpnessPx: 0.75 }),
  flatbed("2003.001.01", "2016-03-12T11:16:00", "low sampling", { ppi: 150, lid: "grey lid", sharpnessPx: 0.8 }),
  flatbed(
    "2003.001.02",
    "2024-03-16T09:20:00",
    null,
    { ppi: 400, lid: "black card", sharpnessPx: 0.6, noise: 0.0016 },
    { take: 2, kind: "png" },
  ),
  flatbed(
    "2019.001.01",
    "2024-03-16T09:31:00",
    "interference rings",
    { ppi: 300, lid: "black card", sharpnessPx: 0.7 },
    { rings: [44, 22, 14, 0.05] },
  ),
  flatbed(
    "1987.005.02",
    "2016-03-12T11:30:00",
    "interference rings in the plain ground",
    { ppi: 250, lid: "grey lid", sharpnessPx: 0.75 },
    { rings: [38, 42, 20, 0.05] },
  ),
  bed("bed-1.jpg", ["1974.004.02", "1979.001.03", "1978.004.13"], "2016-03-12T11:40:00", "three prints on one bed, low sampling", 170),
  bed("bed-2.png", ["2003.001.01", "2003.001.02", "2019.001.01"], "2024-03-16T09:40:00", "three prints on one bed, low sampling", 150),
];

function sheetFed(number: string, takenAt: string, wrong: string | null, settings: Partial<SheetFedCapture>): PlannedCapture {
  const file = `${number}_sheet-fed-1.jpg`;
  const all: SheetFedCapture = {
    ppi: 300,
    marginMm: [1.2, 1.4, 1, 1.2],
    backing: "grey lid",
    turnDegrees: 0,
    streaks: [],
    stretch: 1.004,
    wobblePx: 0.8,
    fringePx: 0.3,
    exposure: 1.06,
    sharpening: 0.7,
    ...settings,
    seed: seedOf(file),
  };
  return {
    file,
    setUp: "sheet-fed",
    prints: [number],
    takenAt,
    wrong,
    take: (sheets) => sheetFedCapture(only(sheets), all),
    output: { kind: "jpeg", quality: 78, claimedPpi: all.ppi, device: "sheet-fed" },
  };
}

function flatbed(
  number: string,
  takenAt: string,
  wrong: string | null,
  settings: Partial<FlatbedCapture> & Pick<FlatbedCapture, "ppi" | "lid">,
  extra: { take?: number; ageing?: Ageing; kind?: "jpeg" | "png"; rings?: readonly [number, number, number, number] } = {},
): PlannedCapture {
  const kind = extra.kind ?? "jpeg";
  const file = `${number}_flatbed-${extra.take ?? 1}.${kind === "png" ? "png" : "jpg"}`;
  const { rings } = extra;
  return {
    file,
    setUp: settings.lid === "white lid" || settings.lid === "grey lid" ? "flatbed-white" : "flatbed-black",
    prints: [number],
    takenAt,
    wrong,
    ...(extra.ageing === undefined ? {} : { ageing: extra.ageing }),
    take: (sheets) => {
      const sheet = only(sheets);
      const lying: Placed = { ...sheet, turnDegrees: ((seedOf(file) % 100) - 50) / 90 };
      const withFilm = rings ? { ...lying, film: interferenceRings(...rings) } : lying;
      return flatbedCapture([withFilm], {
        widthMm: sheet.drawing.sheetWidthMm + 13,
        heightMm: sheet.drawing.sheetHeightMm + 13,
        sharpnessPx: 0.8,
        exposure: 1.03,
        noise: 0.004,
        dust: 14,
        bits: 8,
        ...settings,
        seed: seedOf(file),
      });
    },
    output: { kind, quality: 82, claimedPpi: settings.ppi, device: "flatbed" },
  };
}

function bed(file: string, prints: string[], takenAt: string, wrong: string, ppi: number): PlannedCapture {
  return {
    file,
    setUp: "flatbed-black",
    prints,
    takenAt,
    wrong,
    take: (sheets) => {
      const widths = sheets.map((sheet) => sheet.drawing.sheetWidthMm);
      const gapMm = 14;
      const widthMm = widths.reduce((sum, width) => sum + width + gapMm, gapMm);
      let leftMm = -widthMm / 2 + gapMm;
      const placed = sheets.map((sheet, i) => {
        const centreMm = [leftMm + sheet.drawing.sheetWidthMm / 2, [-3, 4, -1][i % 3] as number] as const;
        leftMm += sheet.drawing.sheetWidthMm + gapMm;
        return { ...sheet, centreMm, turnDegrees: [1.2, -0.8, 0.4][i % 3] as number };
      });
      const heightMm = Math.max(...sheets.map((sheet) => sheet.drawing.sheetHeightMm)) + 34;
      const common = {
        ppi,
        widthMm,
        heightMm,
        lid: "black card",
        sharpnessPx: 0.7,
        dust: 60,
        hairs: 2,
        exposure: 1.03,
        noise: 0.003,
        bits: 8,
      } as const;
      return flatbedCapture(placed, { ...common, seed: seedOf(file) });
    },
    output: { kind: file.endsWith(".png") ? "png" : "jpeg", quality: 82, claimedPpi: ppi, device: "flatbed" },
  };
}
