import * as z from "zod";

/** Farthest grid point from the origin, along either axis. */
export const GRID_LIMIT = 10_000;

const coordinate = z.int().min(-GRID_LIMIT).max(GRID_LIMIT);

export const pointSchema = z
  .tuple([coordinate, coordinate])
  .meta({ id: "point", description: "Grid point [x, y]; x counts to the right, y down." });

export const lineSchema = z
  .strictObject({ from: pointSchema, to: pointSchema })
  .meta({ id: "line", description: "Where the first and the second node's terminal stand, in one row or one column." });

export const poseSchema = z
  .strictObject({
    at: pointSchema,
    turn: z.literal([0, 90, 180, 270]).optional().meta({ description: "Degrees clockwise; 0 unless said." }),
    flip: z
      .boolean()
      .optional()
      .meta({ description: "Mirrored top to bottom before it is turned; false unless said." }),
  })
  .meta({
    id: "pose",
    description:
      "Centre of an op amp or a transformer. Not turned, from the centre: op amp in− (−2, −1), in+ (−2, 1), out (2, 0); " +
      "transformer primary (−2, −1) and (−2, 1), secondary (2, −1) and (2, 1), the dotted end of each first.",
  });

export const drawingSchema = z
  .strictObject({
    wires: z.array(z.array(pointSchema).min(2).max(1000)).max(20_000).optional().meta({
      description:
        "Polylines along the grid. Ends and terminals that touch a wire are joined to it; wires that cross are not.",
    }),
    reference: pointSchema.nullable().optional().meta({ description: "Where the reference symbol stands." }),
  })
  .meta({ id: "drawing" });

export type DrawingEntry = z.infer<typeof drawingSchema>;
export type LineEntry = z.infer<typeof lineSchema>;
export type PoseEntry = z.infer<typeof poseSchema>;
