import * as z from "zod";
import { nodeNameSchema, partNameSchema, passedOver, wantedNameSchema } from "./fileNameSchema";
import { quantitySchema } from "./fileQuantitySchema";

const absent = z.null().optional().meta({ description: "Not used by this quantity." });
const through = partNameSchema.nullable().optional();
const node = nodeNameSchema.nullable().optional();

const common = {
  name: wantedNameSchema.nullable().optional(),
  time: quantitySchema
    .nullable()
    .optional()
    .meta({ description: "An instant; a quantity at an instant is read and not answered." }),
  answer: passedOver("the printed answer."),
  rounded_to: passedOver("the last printed digit of the answer."),
};

const current = z
  .strictObject({
    quantity: z.literal("current"),
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
    quantity: z.literal("voltage"),
    ...common,
    through: absent,
    from: node.meta({ description: "The voltage is that of this node less that of `to`." }),
    to: node,
    across: partNameSchema
      .nullable()
      .optional()
      .meta({ description: "In place of from and to: a part with two terminals, plus less minus." }),
    at: node.meta({ description: "In place of from and to: the voltage of this node to the reference node." }),
  })
  .meta({ id: "wantedVoltage" });
const power = z
  .strictObject({
    quantity: z.literal("power"),
    ...common,
    through: partNameSchema.meta({ description: "The part that absorbs the power." }),
    from: absent,
    to: absent,
  })
  .meta({ id: "wantedPower" });
const port = z
  .strictObject({
    quantity: z.enum([
      "resistance",
      "impedance",
      "open-circuit-voltage",
      "short-circuit-current",
      "thevenin",
      "norton",
      "maximum-power-load",
    ]),
    ...common,
    through: absent,
    from: nodeNameSchema,
    to: nodeNameSchema,
  })
  .meta({ id: "wantedOfPort", description: "What is asked of two nodes seen as a port." });
const timeConstant = z
  .strictObject({ quantity: z.literal("time-constant"), ...common, through, from: node, to: node })
  .meta({ id: "wantedTimeConstant", description: "Read and not answered: answers are those of the steady state." });

/** One wanted quantity of a circuit file, told apart by `quantity`. */
export const wantedSchema = z.discriminatedUnion("quantity", [current, voltage, power, port, timeConstant]);

export type WantedEntry = z.infer<typeof wantedSchema>;
