import * as z from "zod";
import { drawingSchema } from "./fileDrawingSchema";
import { elementSchema } from "./fileElementSchema";
import { groupSchema } from "./fileGroupSchema";
import { nodeNameSchema, passedOver } from "./fileNameSchema";
import { wantedSchema } from "./fileWantedSchema";
import { GROUP_LIMIT } from "./groupLimits";

export const FILE_FORMAT = "addend-circuit";
/**
 * Goes up where something that files hold comes to mean something else. A field that is new, and may be left out,
 * leaves it as it is: every older file means what it meant, and an older program names the field that it does not know.
 */
export const FILE_VERSION = 1;
/** Most elements, and most wanted quantities, that one file may hold. */
export const ELEMENT_LIMIT = 5000;

/**
 * The shape of a circuit file. What a shape cannot say (units, names that must exist, directions) is checked by
 * `readCircuitFile`. `circuit-file.schema.json` beside this file is made from it.
 */
export const circuitFileSchema = z
  .strictObject({
    format: z.literal(FILE_FORMAT).optional().meta({ description: "The name of this format." }),
    version: z
      .literal(FILE_VERSION)
      .optional()
      .meta({ description: "Version of this format; 1 where it is left out." }),
    title: z.string().max(200).nullable().optional().meta({ description: "What the circuit is called." }),
    statement: z
      .string()
      .max(10_000)
      .nullable()
      .optional()
      .meta({ description: "The problem as it is put to people." }),
    elements: z.array(elementSchema).max(ELEMENT_LIMIT).meta({ description: "The parts." }),
    reference: nodeNameSchema
      .nullable()
      .optional()
      .meta({ description: "The node at 0 V; one is chosen, and said, where none is given." }),
    wanted: z.array(wantedSchema).max(ELEMENT_LIMIT).optional().meta({ description: "What is asked." }),
    groups: z
      .array(groupSchema)
      .max(GROUP_LIMIT)
      .optional()
      .meta({ description: "Sources that are taken together, as an addend, besides each source alone." }),
    drawing: drawingSchema
      .nullable()
      .optional()
      .meta({ description: "Wires and the reference symbol on the grid; each part says itself where it is drawn." }),
    amplitude_kind: z
      .enum(["peak", "rms"])
      .optional()
      .meta({ description: "What the amplitudes of all sinusoids are that do not say it themselves." }),
    id: passedOver("a collection's name for the circuit."),
    topic: passedOver("what the circuit is an exercise in."),
    source: passedOver("where the circuit was published."),
    url: passedOver("where the circuit was published."),
    source_kind: passedOver("how the circuit was taken from its source."),
    partials: passedOver("printed addends."),
    note: passedOver("a remark."),
  })
  .meta({ title: "Addend circuit file, version 1", description: "A linear circuit and what is wanted of it." });

export type CircuitFileEntry = z.infer<typeof circuitFileSchema>;

/** The JSON Schema (draft 2020-12) of a circuit file, as `circuit-file.schema.json` holds it. */
export function circuitFileJsonSchema(): unknown {
  return z.toJSONSchema(circuitFileSchema, { target: "draft-2020-12" });
}
