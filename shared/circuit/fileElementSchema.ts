import * as z from "zod";
import { lineSchema, poseSchema } from "./fileDrawingSchema";
import { nodeNameSchema, partNameSchema, passedOver } from "./fileNameSchema";
import { quantityOf } from "./fileQuantitySchema";

const twoNodes = z.tuple([nodeNameSchema, nodeNameSchema]);
const initial = passedOver("a value at time 0; answers are those of the steady state.");

const common = { id: partNameSchema };
const twoTerminal = {
  ...common,
  nodes: twoNodes.meta({
    description: "Plus terminal, minus terminal; current is counted from the first to the second.",
  }),
  drawn: lineSchema.optional(),
};

const sinusoid = {
  phase: quantityOf("Phase in degrees, 0° where it is left out", "30°").optional(),
  omega: quantityOf("Angular frequency in rad/s; give this or frequency", "1000 rad/s").optional(),
  frequency: quantityOf("Frequency in Hz; give this or omega", "50 Hz").optional(),
  waveform: z.enum(["cos", "sin"]).optional().meta({ description: "What the phase is counted from; cos unless said." }),
  measure: z
    .enum(["peak", "rms"])
    .optional()
    .meta({ description: "What the amplitude is; peak unless said here or by amplitude_kind." }),
};

const resistor = z
  .strictObject({
    kind: z.literal("resistor").meta({ description: "Resistor." }),
    ...twoTerminal,
    value: quantityOf("Resistance in ohms", "4.7 kΩ"),
  })
  .meta({ id: "resistor" });
const capacitor = z
  .strictObject({
    kind: z.literal("capacitor").meta({ description: "Capacitor." }),
    ...twoTerminal,
    value: quantityOf("Capacitance in farads, not 0", "22 µF"),
    initial,
  })
  .meta({ id: "capacitor" });
const inductor = z
  .strictObject({
    kind: z.literal("inductor").meta({ description: "Inductor." }),
    ...twoTerminal,
    value: quantityOf("Inductance in henries, not 0", "15 mH"),
    initial,
  })
  .meta({ id: "inductor" });
const voltageSource = z
  .strictObject({
    kind: z
      .literal("voltage-source")
      .meta({ description: "Independent voltage source: holds its first node above its second by its voltage." }),
    ...twoTerminal,
    value: quantityOf("Constant voltage or sinusoid", "12 V ∠ 30° @ 50 Hz").optional(),
    amplitude: quantityOf("Amplitude of a sinusoid in volts; in place of value", "10 V").optional(),
    ...sinusoid,
  })
  .meta({ id: "voltage-source" });
const currentSource = z
  .strictObject({
    kind: z.literal("current-source").meta({
      description: "Independent current source: pushes its current through itself from its first node to its second.",
    }),
    ...twoTerminal,
    value: quantityOf("Constant current or sinusoid", "5 cos(1000 t + 30°) mA").optional(),
    amplitude: quantityOf("Amplitude of a sinusoid in amperes; in place of value", "2 mA").optional(),
    ...sinusoid,
  })
  .meta({ id: "current-source" });

const voltageControl = z
  .strictObject({ voltage: twoNodes.meta({ description: "Two nodes." }) })
  .meta({ id: "voltageControl", description: "Follows the voltage of the first node less that of the second." });
const currentControl = z
  .strictObject({
    current: partNameSchema.meta({ description: "The part whose current is followed." }),
    direction: z
      .enum(["forward", "backward"])
      .optional()
      .meta({ description: "forward, unless said, is from that part's first node to its second." }),
  })
  .meta({ id: "currentControl", description: "Follows the current through a named part." });

const vcvs = z
  .strictObject({
    kind: z.literal("vcvs").meta({ description: "Voltage-controlled voltage source." }),
    ...twoTerminal,
    control: voltageControl,
    gain: quantityOf("Ratio of the source's voltage to the voltage followed", "4"),
  })
  .meta({ id: "vcvs" });
const vccs = z
  .strictObject({
    kind: z.literal("vccs").meta({ description: "Voltage-controlled current source." }),
    ...twoTerminal,
    control: voltageControl,
    gain: quantityOf("Current of the source for each volt followed, in siemens", "2 mS"),
    gain_unit: z.literal("S").optional().meta({ description: "Siemens, as it is without this field." }),
  })
  .meta({ id: "vccs" });
const ccvs = z
  .strictObject({
    kind: z.literal("ccvs").meta({ description: "Current-controlled voltage source." }),
    ...twoTerminal,
    control: currentControl,
    gain: quantityOf("Voltage of the source for each ampere followed, in ohms", "3 kΩ"),
    gain_unit: z.literal("Ω").optional().meta({ description: "Ohms, as it is without this field." }),
  })
  .meta({ id: "ccvs" });
const cccs = z
  .strictObject({
    kind: z.literal("cccs").meta({ description: "Current-controlled current source." }),
    ...twoTerminal,
    control: currentControl,
    gain: quantityOf("Ratio of the source's current to the current followed", "2.5"),
  })
  .meta({ id: "cccs" });

const idealOpAmp = z
  .strictObject({
    kind: z
      .literal("ideal-opamp")
      .meta({ description: "Ideal op amp: no input current, and no voltage between its inputs." }),
    ...common,
    nodes: z
      .tuple([nodeNameSchema, nodeNameSchema, nodeNameSchema])
      .meta({ description: "Non-inverting input, inverting input, output." }),
    drawn: poseSchema.optional(),
  })
  .meta({ id: "ideal-opamp" });
const idealTransformer = z
  .strictObject({
    kind: z.literal("ideal-transformer").meta({ description: "Ideal transformer." }),
    ...common,
    nodes: z
      .tuple([nodeNameSchema, nodeNameSchema, nodeNameSchema, nodeNameSchema])
      .meta({ description: "Primary dotted end, primary other end, secondary dotted end, secondary other end." }),
    ratio: quantityOf("Primary voltage for each volt of the secondary, not 0", "10"),
    drawn: poseSchema.optional(),
  })
  .meta({ id: "ideal-transformer" });
const switchPart = z
  .strictObject({
    kind: z.literal("switch").meta({ description: "Switch." }),
    ...twoTerminal,
    state: z.enum(["open", "closed"]).meta({ description: "Whether it lets current through." }),
  })
  .meta({ id: "switch" });
const wire = z
  .strictObject({
    kind: z.literal("wire").meta({ description: "A wire whose current is wanted or followed." }),
    ...twoTerminal,
  })
  .meta({ id: "wire" });

/** One part of a circuit file, told apart by `kind`. */
export const elementSchema = z.discriminatedUnion("kind", [
  resistor,
  capacitor,
  inductor,
  voltageSource,
  currentSource,
  vcvs,
  vccs,
  ccvs,
  cccs,
  idealOpAmp,
  idealTransformer,
  switchPart,
  wire,
]);

export type ElementEntry = z.infer<typeof elementSchema>;
