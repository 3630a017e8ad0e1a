/** An invented target the size of a small card: greys, colours, and pairs of slanted edges in the corners and the middle. L*a*b* under D50. */
const GREYS = [94, 81, 67, 51, 37, 23] as const;
const COLOURS = {
  brick: [45, 38, 28],
  moss: [48, -22, 30],
  harbour: [40, 2, -36],
  straw: [80, 3, 48],
  plum: [38, 32, -12],
  sea: [62, -26, -14],
  skin: [68, 16, 18],
  leaf: [60, -34, 38],
} as const;

type Colour = readonly [lightness: number, a: number, b: number];

export const CARD_COLOURS: ReadonlyMap<string, Colour> = new Map([
  ...GREYS.map((lightness, index): [string, Colour] => [`grey-${index + 1}`, [lightness, 0, 0]]),
  ...Object.entries(COLOURS),
]);

const PAIRS = { "top-left": [2, 2], "top-right": [48, 2], middle: [25, 17.5], "bottom-left": [2, 33], "bottom-right": [48, 33] } as const;
const EDGE_MM = 5;
const greys = GREYS.map((_, index) => `grey-${index + 1}`);
const colours = Object.keys(COLOURS);
const row = (ids: readonly string[], leftMm: number, topMm: number) => ({
  leftMm,
  topMm,
  widthMm: 4.5,
  heightMm: 4.5,
  columnStepMm: 5.5,
  rowStepMm: 5.5,
  columns: ids.length,
  rows: 1,
  ids: [...ids],
});

/** As its small description file would say it. */
export const CARD_LAYOUT = {
  name: "Small card with greys, colours and edges",
  sheet: { widthMm: 60, heightMm: 40 },
  grids: [row(greys, 14, 9), row(colours.slice(0, 4), 2, 25), row(colours.slice(4), 37, 25)],
  neutrals: greys,
  edges: Object.entries(PAIRS).flatMap(([name, [leftMm, topMm]]) => [
    { id: `${name}-across`, leftMm, topMm, widthMm: EDGE_MM, heightMm: EDGE_MM },
    { id: `${name}-down`, leftMm: leftMm + EDGE_MM, topMm, widthMm: EDGE_MM, heightMm: EDGE_MM },
  ]),
};

/** As the file would say it that comes with a bought target. */
export const CARD_REFERENCE = [
  "CGATS.17",
  'DESCRIPTOR "Small card, drawn"',
  'WEIGHTING_FUNCTION "ILLUMINANT, D50"',
  'WEIGHTING_FUNCTION "OBSERVER, 2 degree"',
  "BEGIN_DATA_FORMAT",
  "SAMPLE_ID LAB_L LAB_A LAB_B",
  "END_DATA_FORMAT",
  "BEGIN_DATA",
  ...[...CARD_COLOURS].map(([id, colour]) => `${id} ${colour.join(" ")}`),
  "END_DATA",
  "",
].join("\n");
