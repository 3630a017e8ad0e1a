/** A close look at one thing found, as somebody in the family photographed it on the day of a survey. */
export type DemoPhotograph = {
  readonly file: string;
  readonly objectNumber: string;
  readonly surveyedOn: string;
  readonly term: string;
  readonly caption: string;
  readonly takenAt: string;
  /** how old the sheet is drawn, 0 to 1 as in the plans of captures */
  readonly ageing: number;
  /** the part of the sheet that is seen, mm from its top left */
  readonly seenMm: { readonly left: number; readonly top: number; readonly width: number; readonly height: number };
  /** the lamp stands low on the left, so that relief shows; else above */
  readonly isRaking?: true;
};

const look = (objectNumber: string, surveyedOn: string, time: string) => ({ objectNumber, surveyedOn, takenAt: `${surveyedOn}T${time}` });

export const DEMO_PHOTOGRAPHS: readonly DemoPhotograph[] = [
  {
    ...look("1884.001.01", "2016-03-12", "15:04:10"),
    file: "foxing-2016.jpg",
    term: "foxing",
    caption: "The densest spots, with the window's light",
    ageing: 0,
    seenMm: { left: 44, top: 72, width: 30, height: 22.5 },
  },
  {
    ...look("1896.001.01", "2015-09-05", "11:20:41"),
    file: "scratch-2015.jpg",
    term: "scratch",
    caption: "The scratch across the sails, a torch low on the left",
    ageing: 0,
    seenMm: { left: 14, top: 44, width: 28, height: 21 },
    isRaking: true,
  },
  {
    ...look("1938.002.02", "2021-05-02", "10:12:33"),
    file: "tideline-2021.jpg",
    term: "tideline",
    caption: "The tideline in the corner; its edge is dry",
    ageing: 0,
    seenMm: { left: 55, top: 0, width: 28, height: 21 },
  },
  {
    ...look("1972.002.01", "2020-10-03", "16:40:02"),
    file: "stain-2020.jpg",
    term: "stain",
    caption: "The stain as it was first seen",
    ageing: 0.4,
    seenMm: { left: 53, top: 73, width: 24, height: 18 },
  },
  {
    ...look("1972.002.01", "2024-03-16", "14:31:55"),
    file: "stain-2024.jpg",
    term: "stain",
    caption: "The same corner four years later: larger",
    ageing: 1,
    seenMm: { left: 53, top: 73, width: 24, height: 18 },
  },
];
