/**
 * What screens, aims and exports need to name a measure. Its formula and source stand on top of its own file. The spread of every
 * measure is one standard uncertainty (reading.ts).
 */
export type CatalogueEntry = {
  readonly label: string;
  readonly unit: string;
  readonly decimals: number;
  /** which way is better on its own; "fact" is neither */
  readonly better: "higher" | "lower" | "fact";
  /** which part of the capture it is read from */
  readonly region: RegionOfCapture;
  /** grows by one when the method changes, so that old values are told from new ones */
  readonly version: number;
  /** one sentence for the keeper: what the number says */
  readonly meaning: string;
};

export type RegionOfCapture = "frame" | "sheet" | "picture" | "border" | "edges" | "file";
