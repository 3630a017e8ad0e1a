import type { Side } from "#domain/capture/capture.ts";
import type { Extent } from "#domain/condition/extent.ts";
import type { Activity, Change } from "#domain/condition/finding.ts";

/** One thing seen on a day, in the words of the form; the same term on the same side is the same thing seen again. */
export type DemoFinding = {
  readonly term: string;
  readonly severity: "0" | "1" | "2" | "3" | "4";
  readonly activity: Activity;
  /** what became of it since it was last seen; none: seen for the first time */
  readonly change?: Change;
  readonly side?: Side;
  readonly extent?: Extent;
  /** where on the sheet, as typed: mm from its top left; the marks of the drawings lie there */
  readonly regions?: string;
  readonly note?: string;
};

export type DemoSurvey = {
  readonly objectNumber: string;
  readonly surveyedOn: string;
  readonly lookedAtBy: string;
  readonly note?: string;
  readonly findings: readonly DemoFinding[];
};

/** The shelf was gone through when the flatbed was lent, the gallery when the copy stand was built; then again as time allowed. */
const FIRST_LOOK = "2016-03-12";
const STAND_2015 = "2015-09-05";
const LEVEL_2025 = "2025-09-13";

/** What the family and the gallery wrote down of their prints over the years; of each print from the earliest on. */
export const DEMO_SURVEYS: readonly DemoSurvey[] = [
  ...looks("1884.001.01", [
    [
      FIRST_LOOK,
      [
        {
          term: "foxing",
          severity: "3",
          activity: "not-known",
          extent: "under-2",
          regions: "36,24 50,52\n52,68 63,101",
          note: "34 spots counted with a loupe.",
        },
        { term: "abrasion", severity: "1", activity: "stable", note: "Corners of the mount." },
      ],
    ],
    [
      "2020-06-06",
      [
        { term: "foxing", severity: "3", activity: "not-known", change: "same", note: "34 spots again." },
        { term: "abrasion", severity: "1", activity: "stable", change: "same" },
      ],
    ],
    ["2024-03-16", [{ term: "foxing", severity: "3", activity: "stable", change: "same", note: "Still 34: it rests." }]],
  ]),
  ...looks("1896.001.01", [
    [
      STAND_2015,
      [
        { term: "scratch", severity: "3", activity: "stable", extent: "under-2", regions: "21,29.8 23,29.8 32,87.8 30,88.2" },
        { term: "foxing", severity: "2", activity: "stable", extent: "under-2" },
        { term: "dirt", severity: "1", activity: "not-known", extent: "over-30", note: "Dust from the tin." },
      ],
    ],
    [
      "2021-05-02",
      [
        { term: "scratch", severity: "3", activity: "stable", change: "same" },
        { term: "foxing", severity: "2", activity: "stable", change: "same" },
        { term: "dirt", severity: "0", activity: "not-known", change: "gone", note: "Dusted with a soft brush." },
      ],
    ],
  ]),
  ...looks("1938.002.01", [
    ["2018-11-10", [{ term: "crease", severity: "2", activity: "stable", extent: "under-2", regions: "0,7.5 8.5,0 11,0 0,10.5" }]],
  ]),
  ...looks("1938.002.02", [
    [
      FIRST_LOOK,
      [
        {
          term: "tideline",
          severity: "3",
          activity: "not-known",
          extent: "2-to-10",
          regions: "62.5,4.5 77.5,19.5",
          note: "Feels dry.",
        },
      ],
    ],
    ["2021-05-02", [{ term: "tideline", severity: "3", activity: "stable", change: "same" }]],
  ]),
  ...looks("1956.003.05", [
    ["2018-11-10", [{ term: "stain", severity: "2", activity: "not-known", extent: "2-to-10", regions: "8,69 20,81" }]],
    [
      "2024-03-16",
      [
        { term: "stain", severity: "2", activity: "stable", change: "same" },
        { term: "silver-mirroring", severity: "1", activity: "not-known", note: "Along the edges, only when tilted to the window." },
      ],
    ],
  ]),
  ...looks("1968.001.01", [
    [FIRST_LOOK, [{ term: "scratch", severity: "3", activity: "stable", extent: "under-2", regions: "11.7,59 39.7,51 40.3,53 12.3,61" }]],
    [LEVEL_2025, [{ term: "scratch", severity: "3", activity: "stable", change: "same" }]],
  ]),
  ...looks("1972.002.01", [
    [FIRST_LOOK, [{ term: "colour-shift", severity: "1", activity: "not-known", extent: "over-30", note: "A little red." }]],
    [
      "2020-10-03",
      [
        { term: "colour-shift", severity: "1", activity: "not-known", change: "same" },
        { term: "stain", severity: "1", activity: "not-known", extent: "under-2", regions: "62,81 68,87", note: "New since 2016." },
      ],
    ],
    [
      "2024-03-16",
      [
        { term: "colour-shift", severity: "1", activity: "active", change: "worse", note: "Redder beside the scan of 2016." },
        { term: "stain", severity: "2", activity: "active", extent: "2-to-10", change: "worse", regions: "57.5,76.5 72.5,89" },
      ],
    ],
  ]),
  ...looks("1974.004.01", [
    [FIRST_LOOK, [{ term: "fading", severity: "1", activity: "not-known", extent: "over-30" }]],
    [
      LEVEL_2025,
      [
        { term: "fading", severity: "1", activity: "stable", change: "same" },
        { term: "dark-stain-instant", severity: "1", activity: "not-known", extent: "over-30" },
      ],
    ],
  ]),
  ...looks("1976.001.01", [
    [FIRST_LOOK, [{ term: "scratch", severity: "3", activity: "stable", extent: "under-2", regions: "59,20.3 61,19.7 73,60.7 71,61.3" }]],
    [LEVEL_2025, [{ term: "scratch", severity: "3", activity: "stable", change: "same" }]],
  ]),
  ...looks("1978.004.12", [
    [STAND_2015, [{ term: "dark-stain-instant", severity: "1", activity: "not-known", extent: "over-30" }]],
    [
      "2020-10-03",
      [
        { term: "dark-stain-instant", severity: "1", activity: "not-known", change: "same" },
        { term: "fading", severity: "1", activity: "not-known", extent: "over-30" },
      ],
    ],
    [
      LEVEL_2025,
      [
        {
          term: "dark-stain-instant",
          severity: "1",
          activity: "active",
          change: "worse",
          note: "The border is creamier than in the capture of 2015.",
        },
        { term: "fading", severity: "1", activity: "active", change: "worse" },
      ],
    ],
  ]),
  ...looks("1979.001.04", [
    [LEVEL_2025, [{ term: "cracking-integral", severity: "2", activity: "not-known", note: "Seen when it was found in the sleeve." }]],
    [
      "2026-03-14",
      [
        {
          term: "cracking-integral",
          severity: "3",
          activity: "active",
          change: "worse",
          extent: "over-30",
          note: "More lines, and towards the middle.",
        },
      ],
    ],
  ]),
  ...looks("1987.005.01", [
    [STAND_2015, []],
    ["2026-06-01", []],
  ]),
  ...looks("1991.003.01", [
    [STAND_2015, [{ term: "curl", severity: "1", activity: "stable" }]],
    ["2021-05-02", [{ term: "curl", severity: "1", activity: "stable", change: "same" }]],
    [
      "2026-10-02",
      [{ term: "curl", severity: "0", activity: "not-known", change: "gone", note: "Flat since it was framed for the show." }],
    ],
  ]),
];

/** A place that is being gone through: the first looks were kept, the last print waits. */
export const DEMO_ROUND = { place: "drawer-3", lookedAtBy: "Nell Averin", looked: ["1987.005.01", "1987.005.02", "1991.003.01"] } as const;

function looks(objectNumber: string, each: readonly (readonly [surveyedOn: string, findings: readonly DemoFinding[]])[]): DemoSurvey[] {
  // Tobias looked after the prints until Nell took them over
  const by = (day: string) => (day < "2018" ? "Tobias Averin" : "Nell Averin");
  return each.map(([surveyedOn, findings]) => ({ objectNumber, surveyedOn, lookedAtBy: by(surveyedOn), findings }));
}
