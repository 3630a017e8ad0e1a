import { z } from "zod";

const mm = z.number().finite().min(0).max(2000);
const id = z.string().trim().min(1).max(40);
const box = z.strictObject({ leftMm: mm, topMm: mm, widthMm: mm.positive(), heightMm: mm.positive() });

/**
 * Where things lie on a test target, in mm from the top left of its sheet. Patches carry the names that the reference file gives
 * them; a row of like patches is described once. This layout is our own format.
 */
export const targetLayout = z
  .strictObject({
    name: z.string().trim().min(1).max(120),
    sheet: z.strictObject({ widthMm: mm.min(20), heightMm: mm.min(20) }),
    /** how far each side of the sheet may be off, as of one cut by hand; its scale is told with that doubt */
    sheetDoubtMm: mm.max(10).optional(),
    patches: z.array(box.extend({ id })).max(2000).default([]),
    /** patches in rows and columns, named row by row; the step is from one patch to the next */
    grids: z
      .array(
        box.extend({
          columnStepMm: mm.positive(),
          rowStepMm: mm.positive(),
          columns: z.number().int().min(1).max(60),
          rows: z.number().int().min(1).max(60),
          /** names, row by row; as many as there are patches */
          ids: z.array(id).min(1).max(3600),
        }),
      )
      .max(20)
      .default([]),
    /** names of the grey patches, on which tone, white balance and noise are read */
    neutrals: z.array(id).max(200).default([]),
    /** names of patches of one and the same material, spread over the sheet, on which evenness is read */
    field: z.array(id).max(200).default([]),
    /** boxes that hold one slanted edge each, between two plain sides */
    edges: z.array(box.extend({ id })).max(100).default([]),
    /** the edges have a softness of their own that is not known, as printed ones have: what they show is "at least" */
    softEdges: z.boolean().default(false),
  })
  .superRefine((layout, issues) => {
    const say = (path: (string | number)[], message: string) => issues.addIssue({ code: "custom", path, message });
    layout.grids.forEach((grid, index) => {
      if (grid.ids.length !== grid.rows * grid.columns)
        say(["grids", index, "ids"], `This grid has ${grid.rows * grid.columns} patches, and ${grid.ids.length} names.`);
    });
    const placed = placesOf(layout);
    const known = new Set(placed.map((each) => each.id));
    if (known.size < placed.length) say(["patches"], "Two patches or edges have the same name.");
    for (const list of ["neutrals", "field"] as const)
      layout[list].forEach((name, index) => {
        if (!known.has(name)) say([list, index], `There is no patch called ${name}.`);
      });
    for (const place of placed)
      if (place.leftMm + place.widthMm > layout.sheet.widthMm || place.topMm + place.heightMm > layout.sheet.heightMm)
        say(["patches"], `${place.id} lies outside the sheet.`);
    if (placed.length === 0) say(["patches"], "A target needs patches or edges.");
  });

export type TargetLayout = z.output<typeof targetLayout>;

/** What was laid under the camera; without a layout a plain sheet that filled the frame. */
export const targetName = (layout: TargetLayout | null): string => layout?.name ?? "Even sheet";

export type Box = z.output<typeof box>;
export type Placed = Box & { readonly id: string };

/** Every patch, those of grids included. */
export const patchesOf = ({ patches, grids }: Pick<TargetLayout, "patches" | "grids">): Placed[] => [
  ...patches,
  ...grids.flatMap(({ ids, columns, columnStepMm, rowStepMm, leftMm, topMm, widthMm, heightMm }) =>
    ids.map((id, index) => ({
      id,
      leftMm: leftMm + (index % columns) * columnStepMm,
      topMm: topMm + Math.floor(index / columns) * rowStepMm,
      widthMm,
      heightMm,
    })),
  ),
];

const placesOf = (layout: Pick<TargetLayout, "patches" | "grids" | "edges">): Placed[] => [...patchesOf(layout), ...layout.edges];
