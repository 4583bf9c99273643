import * as z from "zod";
import { partNameSchema } from "./fileNameSchema";
import { MEMBER_LIMIT } from "./groupLimits";

/** Independent sources that are taken together, as one addend. */
export const groupSchema = z
  .strictObject({
    sources: z.array(partNameSchema).min(2).max(MEMBER_LIMIT).meta({
      description: "Two or more independent sources, but not all of the circuit's, each named once.",
    }),
  })
  .meta({ id: "group" });

export type GroupEntry = z.infer<typeof groupSchema>;
