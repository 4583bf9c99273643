import * as z from "zod";
import { nodeNameSchema, partNameSchema, passedOver, wantedNameSchema } from "./fileNameSchema";
import { quantitySchema } from "./fileQuantitySchema";

const absent = z.null().optional().meta({ description: "Not used by this quantity." });
const node = nodeNameSchema.nullable().optional();

const common = {
  name: wantedNameSchema
    .nullable()
    .optional()
    .meta({ description: "What people call it: Iy, Vq. One is made where none is given." }),
  time: quantitySchema
    .nullable()
    .optional()
    .meta({ description: "An instant; a quantity at an instant is read and not answered." }),
  answer: passedOver("the printed answer."),
  rounded_to: passedOver("the last printed digit of the answer."),
};

const current = z
  .strictObject({
    quantity: z.literal("current").meta({ description: "The current through a part." }),
    ...common,
    through: partNameSchema.meta({ description: "The part whose current is wanted." }),
    from: node.meta({
      description: "The terminal's node at which the wanted current enters the part; an op amp's own id at its inside.",
    }),
    to: node.meta({ description: "The terminal's node at which it leaves." }),
    winding: z
      .enum(["primary", "secondary"])
      .optional()
      .meta({ description: "Of a transformer, where from and to do not tell." }),
    direction: z.enum(["forward", "backward"]).optional().meta({
      description:
        "In place of from and to: forward is from the first node to the second, into an op amp at its output.",
    }),
  })
  .meta({ id: "wantedCurrent" });
const voltage = z
  .strictObject({
    quantity: z.literal("voltage").meta({ description: "A voltage between two nodes." }),
    ...common,
    through: absent,
    from: node.meta({ description: "The voltage is that of this node less that of `to`." }),
    to: node.meta({ description: "The other node." }),
    across: partNameSchema
      .nullable()
      .optional()
      .meta({ description: "In place of from and to: a part with two terminals, plus less minus." }),
    at: node.meta({ description: "In place of from and to: the voltage of this node to the reference node." }),
  })
  .meta({ id: "wantedVoltage" });
const power = z
  .strictObject({
    quantity: z.literal("power").meta({ description: "The power that a part absorbs; negative where it supplies." }),
    ...common,
    through: partNameSchema.meta({ description: "The part that absorbs the power." }),
    from: absent,
    to: absent,
  })
  .meta({ id: "wantedPower" });
const port = z
  .strictObject({
    quantity: z
      .enum([
        "resistance",
        "impedance",
        "open-circuit-voltage",
        "short-circuit-current",
        "thevenin",
        "norton",
        "maximum-power-load",
      ])
      .meta({ description: "What is asked of two nodes seen as a port." }),
    ...common,
    through: absent,
    from: nodeNameSchema.meta({ description: "Where the port's current leaves the circuit." }),
    to: nodeNameSchema.meta({ description: "Where it comes back." }),
  })
  .meta({ id: "wantedOfPort" });
const timeConstant = z
  .strictObject({
    quantity: z
      .literal("time-constant")
      .meta({ description: "Read and not answered: answers are those of the steady state." }),
    ...common,
    through: partNameSchema.nullable().optional().meta({ description: "The part it belongs to." }),
    from: node.meta({ description: "Or the nodes it is seen from." }),
    to: node.meta({ description: "Or the nodes it is seen from." }),
  })
  .meta({ id: "wantedTimeConstant" });

/** One wanted quantity of a circuit file, told apart by `quantity`. */
export const wantedSchema = z.discriminatedUnion("quantity", [current, voltage, power, port, timeConstant]);

export type WantedEntry = z.infer<typeof wantedSchema>;
