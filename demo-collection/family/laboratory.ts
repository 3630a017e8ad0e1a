import { centred, type DemoPrint, IN_COPYRIGHT } from "./demo-print.ts";

const LAB = { processId: "chromogenic", maker: "Corvin Averin", rightsUri: IN_COPYRIGHT };
const UPRIGHT = { sheetWidthMm: 101.8, sheetHeightMm: 152.2, image: centred(101.8, 152.2, 94, 144.4) } as const;
const LYING = { sheetWidthMm: 152.2, sheetHeightMm: 101.8, image: centred(152.2, 101.8, 144.4, 94) } as const;
const COLOUR = { look: "chromogenic", gloss: 0.85, fading: [0.14, 0.05, 0.03], yellowing: 0.025 } as const;

/** Colour prints from the laboratory, resin-coated, with narrow white borders. */
export const LABORATORY_PRINTS: readonly DemoPrint[] = [
  {
    objectNumber: "1972.002.01",
    place: "lab-box",
    fields: {
      ...LAB,
      formatId: "square-snapshot-89mm",
      orientation: "square",
      title: "The train goes round",
      date: "1972-12",
      maker: "Tobias Averin",
      significance: "3",
      notes: "Scanned in 2016 and again in 2024.",
    },
    people: ["Corvin Averin (his train)"],
    subjects: ["toys", "trains"],
    drawing: {
      picture: "toy-train.jpg",
      look: "chromogenic",
      sheetWidthMm: 88.8,
      sheetHeightMm: 89,
      image: centred(88.8, 89, 79, 79),
      gloss: 0.6,
      fading: [0.16, 0.06, 0.04],
      yellowing: 0.035,
      marks: [{ kind: "stain", atMm: [65, 84], radiusMm: 5.5, density: [0.03, 0.08, 0.15], growing: true }],
    },
  },
  {
    objectNumber: "1981.002.01",
    place: "sleeve-1981",
    fields: {
      ...LAB,
      formatId: "sheet-4r",
      orientation: "portrait",
      title: "Balloon week",
      date: "1981-06",
      dateGround: "On the envelope.",
    },
    subjects: ["balloons", "festivals"],
    drawing: { ...COLOUR, ...UPRIGHT, picture: "balloons-hills.jpg" },
  },
  {
    objectNumber: "1981.002.02",
    place: "sleeve-1981",
    fields: { ...LAB, formatId: "sheet-4r", orientation: "portrait", title: "The lighthouse on the point", date: "1981-06" },
    subjects: ["lighthouses", "Lissamouth"],
    drawing: { ...COLOUR, ...UPRIGHT, picture: "lighthouse.jpg" },
  },
  {
    objectNumber: "1981.002.03",
    place: "sleeve-1981",
    fields: { ...LAB, formatId: "sheet-4r", orientation: "landscape", title: "Harbour lights", date: "1981-06" },
    subjects: ["harbours", "night", "Lissamouth"],
    drawing: { ...COLOUR, ...LYING, picture: "harbour-dusk.jpg" },
  },
  {
    objectNumber: "1981.002.04",
    place: "sleeve-1981",
    fields: {
      ...LAB,
      formatId: "sheet-4r",
      orientation: "landscape",
      title: "Harbour lights, a step nearer",
      date: "1981-06",
      notes: "Same roll and nearly the same view as 1981.002.03: mind the mix-up.",
    },
    subjects: ["harbours", "night", "Lissamouth"],
    drawing: { ...COLOUR, ...LYING, picture: "harbour-dusk.jpg", crop: { left: 0.42, top: 0.2, width: 0.56, height: 0.8 } },
  },
  {
    objectNumber: "1994.001.01",
    place: "lab-box",
    fields: { ...LAB, formatId: "sheet-4r", orientation: "portrait", title: "The lane in October", date: "1994-10", maker: "Nell Averin" },
    subjects: ["lanes", "autumn"],
    drawing: {
      picture: "autumn-lane.jpg",
      look: "chromogenic",
      sheetWidthMm: 102,
      sheetHeightMm: 152.4,
      image: { leftMm: 0, topMm: 0, widthMm: 102, heightMm: 152.4 },
      gloss: 0.3,
      fading: [0.03, 0.02, 0.02],
    },
  },
];
