import { describe, expect, it } from "vitest";
import { fileProblemText, readCircuitFile, readCircuitText } from "../../shared/circuit";

/** What is wrong, the malformed input, and every sentence that it gets, in order. */
type Case = readonly [fault: string, input: unknown, ...sentences: string[]];

const V1 = { id: "V1", kind: "voltage-source", nodes: ["a", "0"], value: "9 V" };
const R1 = { id: "R1", kind: "resistor", nodes: ["a", "b"], value: "2 kΩ" };
const R2 = { id: "R2", kind: "resistor", nodes: ["b", "0"], value: "1 kΩ" };
const base = { elements: [V1, R1, R2], reference: "0" };

/** The base with fields of R1 changed; a field set to undefined is left out. */
const resistor = (change: object) => ({ ...base, elements: [V1, written({ ...R1, ...change }), R2] });
/** The base with one more element, at place 3. */
const plus = (element: object) => ({ ...base, elements: [V1, R1, R2, element] });
const source = (change: object) => ({ ...base, elements: [written({ ...V1, ...change }), R1, R2] });
const sinusoid = (change: object) => source({ value: undefined, amplitude: "9 V", frequency: "50 Hz", ...change });
const wanted = (...entries: unknown[]) => ({ ...base, wanted: entries });
const current = (change: object) => wanted({ quantity: "current", through: "R1", ...change });
const voltage = (change: object) => wanted({ quantity: "voltage", ...change });

/** Three sources in one circuit, with these groups of them. */
const grouped = (...groups: unknown[]) => ({
  elements: [
    V1,
    R1,
    R2,
    { ...V1, id: "V2", nodes: ["b", "0"] },
    { ...V1, id: "I1", kind: "current-source", value: "1 A" },
  ],
  groups,
});

function written(value: object): object {
  return JSON.parse(JSON.stringify(value));
}

const TEXTS: readonly Case[] = [
  ["nothing at all", "", "the file is empty."],
  ["blank lines only", " \n\t\r\n", "the file is empty."],
  ["too much text", " ".repeat(5_000_001), "the file is longer than 5 million characters, the most that is read."],
  ["an object cut off", '{ "elements": [', "line 1, column 16: a value is wanted, but the file ends here."],
  [
    "a comma too many",
    '{\n  "elements": [],\n}',
    'line 3, column 1: a field name in double quotes is wanted, but "}" stands here.',
  ],
  [
    "a comma missing",
    '{"elements": []\n "wanted": []}',
    'line 2, column 2: a comma or "}" is wanted, but a double quote stands here.',
  ],
  [
    "a comma missing in a list",
    '{"elements": [{} {}]}',
    'line 1, column 18: a comma or "]" is wanted, but "{" stands here.',
  ],
  [
    "single quotes",
    "{'elements': []}",
    'line 1, column 2: a field name in double quotes or "}" is wanted, but "\'" stands here.',
  ],
  [
    "a comment",
    "{ // parts\n}",
    'line 1, column 3: a field name in double quotes or "}" is wanted, but "/" stands here.',
  ],
  ["a number JSON does not know", '{"version": NaN}', 'line 1, column 13: a value is wanted, but "NaN" stands here.'],
  ["a number with a zero in front", '{"version": 01}', 'line 1, column 13: a value is wanted, but "01" stands here.'],
  ["a colon missing", '{"version" 1}', 'line 1, column 12: a colon is wanted, but "1" stands here.'],
  [
    "text that is not closed",
    '{"title": "The lamp\n}',
    "line 1, column 20: a closing double quote is wanted, but a line break stands here.",
  ],
  [
    "an escape that does not exist",
    '{"title": "\\Omega"}',
    'line 1, column 12: an escape such as "\\n" or "\\u03a9" is wanted, but "\\" stands here.',
  ],
  [
    "something after the end",
    '{"elements": []} x',
    'line 1, column 18: the end of the file is wanted, but "x" stands here.',
  ],
];

const WHOLE: readonly Case[] = [
  ["a list", [], "a circuit file is an object, but this is a list."],
  ["null", null, "a circuit file is an object, but this is null."],
  ["text in quotes", "R1 a b 2k", 'a circuit file is an object, but this is "R1 a b 2k".'],
  ["a number", 7, "a circuit file is an object, but this is the number 7."],
  ["no elements", {}, "elements: this field is missing, and a circuit file needs it."],
  ["elements that are no list", { elements: { R1 } }, "elements: a list is wanted here, but this is an object."],
  [
    "more elements than are read",
    { elements: new Array(5001).fill(R1) },
    "elements: the list is too long: 5000 entries are the most.",
  ],
  [
    "another format",
    { ...base, format: "netlist" },
    'format: "netlist" is another format; a circuit file says "addend-circuit".',
  ],
  [
    "a format that is no text",
    { ...base, format: 1 },
    'format: "addend-circuit" is wanted here, but this is the number 1.',
  ],
  [
    "a newer version, whatever else is odd",
    { ...base, version: 2, layers: [] },
    "version: version 2 is newer than this program reads; it reads version 1.",
  ],
  ["a version in quotes", { ...base, version: "1" }, 'version: 1 is wanted here, but this is "1".'],
  ["an unknown field", { ...base, colour: "red" }, "colour: a circuit file has no such field."],
  [
    "a field that is misspelt",
    { ...base, refrence: "0" },
    'refrence: a circuit file has no such field; perhaps "reference" is meant.',
  ],
  [
    "a field of the language",
    JSON.parse('{"elements": [], "__proto__": {"title": 1}}'),
    "__proto__: a circuit file has no such field.",
  ],
  [
    "a field of every object",
    JSON.parse('{"elements": [], "constructor": 1}'),
    "constructor: a circuit file has no such field.",
  ],
  ["a title that is no text", { ...base, title: ["Lamp"] }, "title: text is wanted here, but this is a list."],
  [
    "a title without end",
    { ...base, title: "x".repeat(201) },
    "title: the text is too long: 200 characters are the most.",
  ],
  [
    "a reference that is a number",
    { ...base, reference: 0 },
    "reference: text is wanted here, but this is the number 0.",
  ],
  ["a reference nothing joins", { ...base, reference: "earth" }, 'reference: no part is joined to a node "earth".'],
  ["an unknown measure", { ...base, amplitude_kind: "mean" }, 'amplitude_kind: "mean" is not one of "peak", "rms".'],
];

const ELEMENTS: readonly Case[] = [
  ["a number", { elements: [3] }, "elements[0]: an object is wanted here, but this is the number 3."],
  ["null", { elements: [null] }, "elements[0]: an object is wanted here, but this is null."],
  ["no kind", { elements: [{ id: "R1" }] }, "elements[0].kind: this field is missing, and every element needs it."],
  [
    "a misspelt kind",
    resistor({ kind: "resister" }),
    'elements[1].kind: "resister" is not known here; perhaps "resistor" is meant.',
  ],
  [
    "an unknown kind",
    resistor({ kind: "diode" }),
    'elements[1].kind: "diode" is not one of "resistor", "capacitor", "inductor", "voltage-source", "current-source", "vcvs", "vccs", "ccvs", "cccs", "ideal-opamp", "ideal-transformer", "switch", "wire".',
  ],
  ["a kind that is no text", resistor({ kind: 5 }), "elements[1].kind: text is wanted here, but this is the number 5."],
  ["no id", resistor({ id: undefined }), "elements[1].id: this field is missing, and a resistor needs it."],
  ["an empty id", resistor({ id: "" }), "elements[1].id: a name has at least one visible character."],
  ["an id of blanks", resistor({ id: "  " }), "elements[1].id: a name has at least one visible character."],
  ["an id with blanks around", resistor({ id: " R1" }), "elements[1].id: a name has no spaces at its ends."],
  [
    "an id over two lines",
    resistor({ id: "R\n1" }),
    "elements[1].id: a name has no line breaks or control characters.",
  ],
  [
    "an id without end",
    resistor({ id: "R".repeat(65) }),
    "elements[1].id: the text is too long: 64 characters are the most.",
  ],
  ["an id given twice", resistor({ id: "V1" }), 'elements[1].id: "V1" is taken already, by elements[0].'],
  ["no nodes", resistor({ nodes: undefined }), "elements[1].nodes: this field is missing, and a resistor needs it."],
  [
    "nodes that are no list",
    resistor({ nodes: "a b" }),
    'elements[1].nodes: a list is wanted here, but this is "a b".',
  ],
  ["one node", resistor({ nodes: ["a"] }), "elements[1].nodes: a resistor has 2 nodes, but the list has 1 entry."],
  [
    "three nodes",
    resistor({ nodes: ["a", "b", "0"] }),
    "elements[1].nodes: a resistor has 2 nodes, but the list has 3 entries.",
  ],
  [
    "a node that is a number",
    resistor({ nodes: ["a", 1] }),
    "elements[1].nodes[1]: text is wanted here, but this is the number 1.",
  ],
  [
    "a node without a name",
    resistor({ nodes: ["a", ""] }),
    "elements[1].nodes[1]: a name has at least one visible character.",
  ],
  ["an unknown field", resistor({ tolerance: "5 %" }), "elements[1].tolerance: a resistor has no such field."],
  [
    "a misspelt field",
    resistor({ vale: "1 Ω" }),
    'elements[1].vale: a resistor has no such field; perhaps "value" is meant.',
  ],
  [
    "a field whose name is long and odd",
    resistor({ [`my "${"x".repeat(60)}`]: 1 }),
    `elements[1]["my \\"${"x".repeat(35)}…"]: a resistor has no such field.`,
  ],
  [
    "an op amp with two nodes",
    plus({ id: "U1", kind: "ideal-opamp", nodes: ["a", "b"] }),
    "elements[3].nodes: an ideal op amp has 3 nodes (in+, in−, out), but the list has 2 entries.",
  ],
  [
    "a transformer with two nodes",
    plus({ id: "T1", kind: "ideal-transformer", nodes: ["a", "b"], ratio: 2 }),
    "elements[3].nodes: an ideal transformer has 4 nodes (primary +, primary −, secondary +, secondary −), but the list has 2 entries.",
  ],
  [
    "a switch half open",
    plus({ id: "S1", kind: "switch", nodes: ["a", "b"], state: "ajar" }),
    'elements[3].state: "ajar" is not one of "open", "closed".',
  ],
  [
    "a wire with a value",
    plus({ id: "W1", kind: "wire", nodes: ["a", "b"], value: "0 Ω" }),
    "elements[3].value: a wire has no such field.",
  ],
];

const VALUES: readonly Case[] = [
  ["no value", resistor({ value: undefined }), "elements[1].value: this field is missing, and a resistor needs it."],
  ["null", resistor({ value: null }), "elements[1].value: text or a number is wanted here, but this is null."],
  [
    "a current for a resistor",
    resistor({ value: "5 mA" }),
    'elements[1].value: a resistor takes ohms (Ω), but "5 mA" is a current.',
  ],
  [
    "a resistance for a capacitor",
    plus({ id: "C1", kind: "capacitor", nodes: ["a", "b"], value: "5 Ω" }),
    'elements[3].value: a capacitor takes farads (F), but "5 Ω" is a resistance.',
  ],
  [
    "a capacitance for an inductor",
    plus({ id: "L1", kind: "inductor", nodes: ["a", "b"], value: "22 µF" }),
    'elements[3].value: an inductor takes henries (H), but "22 µF" is a capacitance.',
  ],
  [
    "a current for a voltage source",
    source({ value: "5 mA" }),
    'elements[0].value: a voltage source takes volts (V), but "5 mA" is a current.',
  ],
  [
    "a capacitor of nothing",
    plus({ id: "C1", kind: "capacitor", nodes: ["a", "b"], value: "0 F" }),
    "elements[3].value: a capacitor of 0 F is an open circuit; leave it out or give it a value.",
  ],
  [
    "an inductor of nothing",
    plus({ id: "L1", kind: "inductor", nodes: ["a", "b"], value: 0 }),
    'elements[3].value: an inductor of 0 H is a wire; give it a value or the kind "wire".',
  ],
  [
    "a transformer of ratio 0",
    plus({ id: "T1", kind: "ideal-transformer", nodes: ["a", "0", "b", "0"], ratio: "0" }),
    "elements[3].ratio: the ratio of an ideal transformer is not 0.",
  ],
  [
    "a ratio with a unit",
    plus({ id: "T1", kind: "ideal-transformer", nodes: ["a", "0", "b", "0"], ratio: "2 V" }),
    'elements[3].ratio: the ratio of an ideal transformer takes a number without a unit, but "2 V" is a voltage.',
  ],
  [
    "a number that a double has rounded",
    resistor({ value: 1.0000000000000002 }),
    "elements[1].value: this number has 17 digits and may have been rounded; put it in quotes to keep it exact.",
  ],
  [
    "a number that is none",
    resistor({ value: Number.NaN }),
    "elements[1].value: text or a number is wanted here, but this is null.",
  ],
  [
    "a value without end",
    resistor({ value: "1".repeat(121) }),
    "elements[1].value: the text is too long: 120 characters are the most.",
  ],
  [
    "a source without a value",
    source({ value: undefined }),
    'elements[0].value: this field is missing, and a voltage source needs it or "amplitude".',
  ],
  [
    "a value and an amplitude",
    source({ amplitude: "9 V" }),
    'elements[0].amplitude: this field and "value" say the same thing; give one of them.',
  ],
  [
    "a phase of a constant",
    source({ phase: "30°" }),
    "elements[0].phase: this field belongs to a sinusoid, and this source is constant.",
  ],
  [
    "a phase beside a whole sinusoid",
    source({ value: "9 V ∠ 30° @ 50 Hz", phase: "30°" }),
    'elements[0].phase: "value" is a whole sinusoid already; leave this field out.',
  ],
  [
    "a sinusoid without a frequency",
    sinusoid({ frequency: undefined }),
    'elements[0].frequency: this field is missing, and a voltage source needs it or "omega".',
  ],
  [
    "two frequencies",
    sinusoid({ omega: "314 rad/s" }),
    'elements[0].frequency: this field and "omega" say the same thing; give one of them.',
  ],
  [
    "a frequency of 0",
    sinusoid({ frequency: "0 Hz" }),
    'elements[0].frequency: a frequency is more than 0; a constant is given by "value" alone.',
  ],
  [
    "a frequency in rad/s",
    sinusoid({ frequency: "314 rad/s" }),
    'elements[0].frequency: a frequency takes hertz (Hz), but "314 rad/s" is an angular frequency.',
  ],
  [
    "a phase in volts",
    sinusoid({ phase: "1 V" }),
    'elements[0].phase: a phase takes degrees (°), but "1 V" is a voltage.',
  ],
  [
    "an amplitude in amperes",
    sinusoid({ amplitude: "1 A" }),
    'elements[0].amplitude: a voltage source takes volts (V), but "1 A" is a current.',
  ],
  ["another waveform", sinusoid({ waveform: "square" }), 'elements[0].waveform: "square" is not one of "cos", "sin".'],
  [
    "a misspelt measure",
    sinusoid({ measure: "RSM" }),
    'elements[0].measure: "RSM" is not known here; perhaps "rms" is meant.',
  ],
];

const CONTROLS: readonly Case[] = [
  [
    "no control",
    plus({ id: "E1", kind: "vcvs", nodes: ["b", "0"], gain: 2 }),
    "elements[3].control: this field is missing, and a voltage-controlled voltage source needs it.",
  ],
  [
    "a current for a source that follows a voltage",
    plus({ id: "E1", kind: "vcvs", nodes: ["b", "0"], control: { current: "R1" }, gain: 2 }),
    'elements[3].control: a voltage-controlled voltage source follows a voltage, written {"voltage": ["plus node", "minus node"]}.',
  ],
  [
    "a voltage for a source that follows a current",
    plus({ id: "F1", kind: "cccs", nodes: ["b", "0"], control: { voltage: ["a", "b"] }, gain: 2 }),
    'elements[3].control: a current-controlled current source follows a current, written {"current": "name of a part"}.',
  ],
  [
    "a control in plain text",
    plus({ id: "H1", kind: "ccvs", nodes: ["b", "0"], control: "R1", gain: 2 }),
    'elements[3].control: a current-controlled voltage source follows a current, written {"current": "name of a part"}.',
  ],
  [
    "a direction that is none",
    plus({ id: "F1", kind: "cccs", nodes: ["b", "0"], control: { current: "R1", direction: "up" }, gain: 2 }),
    'elements[3].control.direction: "up" is not one of "forward", "backward".',
  ],
  [
    "a gain of the wrong unit",
    plus({ id: "G1", kind: "vccs", nodes: ["b", "0"], control: { voltage: ["a", "b"] }, gain: "2 kΩ" }),
    'elements[3].gain: the gain of a voltage-controlled current source takes siemens (S), but "2 kΩ" is a resistance.',
  ],
  [
    "a unit of gain that does not fit",
    plus({ id: "H1", kind: "ccvs", nodes: ["b", "0"], control: { current: "R1" }, gain: 2, gain_unit: "S" }),
    'elements[3].gain_unit: the gain of a current-controlled voltage source is in "Ω", but this is "S".',
  ],
  [
    "a unit of a gain that has none",
    plus({ id: "F1", kind: "cccs", nodes: ["b", "0"], control: { current: "R1" }, gain: 2, gain_unit: "Ω" }),
    "elements[3].gain_unit: the gain of a current-controlled current source is a ratio and has no unit; leave this field out.",
  ],
];

const WANTED: readonly Case[] = [
  ["no list", { ...base, wanted: "R1" }, 'wanted: a list is wanted here, but this is "R1".'],
  [
    "no quantity",
    wanted({ through: "R1" }),
    "wanted[0].quantity: this field is missing, and a wanted quantity needs it.",
  ],
  [
    "a misspelt quantity",
    wanted({ quantity: "curent", through: "R1" }),
    'wanted[0].quantity: "curent" is not known here; perhaps "current" is meant.',
  ],
  [
    "a current through nothing",
    current({ through: undefined }),
    "wanted[0].through: this field is missing, and a wanted quantity needs it.",
  ],
  ["a current through an unknown part", current({ through: "R9" }), 'wanted[0].through: no part is called "R9".'],
  [
    "a part in small letters",
    current({ through: "r1" }),
    'wanted[0].through: no part is called "r1"; perhaps "R1" is meant.',
  ],
  [
    "a current from elsewhere",
    current({ from: "0", to: "b" }),
    'wanted[0].from: "0" is not a terminal of R1, which lies between "a" and "b".',
  ],
  [
    "a current from and to one node",
    current({ from: "a", to: "a" }),
    'wanted[0].to: "a" is named at both ends; two different nodes are wanted.',
  ],
  [
    "a direction against from and to",
    current({ from: "a", to: "b", direction: "backward" }),
    'wanted[0].direction: "direction" says one way, and "from" and "to" say the other; give one of them.',
  ],
  [
    "the winding of a resistor",
    current({ winding: "primary" }),
    "wanted[0].winding: R1 is no transformer, so it has no windings.",
  ],
  [
    "a voltage without nodes",
    voltage({}),
    'wanted[0].from: this field is missing: a wanted voltage needs "from" and "to", or "across", or "at".',
    'wanted[0].to: this field is missing: a wanted voltage needs "from" and "to", or "across", or "at".',
  ],
  ["a voltage to an unknown node", voltage({ from: "a", to: "z" }), 'wanted[0].to: no part is joined to a node "z".'],
  [
    "a voltage from a node to itself",
    voltage({ from: "a", to: "a" }),
    'wanted[0].to: "a" is named at both ends; two different nodes are wanted.',
  ],
  ["a voltage across an unknown part", voltage({ across: "R7" }), 'wanted[0].across: no part is called "R7".'],
  [
    "a voltage across and between",
    voltage({ across: "R1", from: "a" }),
    'wanted[0].across: this field and "from" exclude each other; give one of them.',
  ],
  [
    "a voltage at and between",
    voltage({ at: "a", to: "b" }),
    'wanted[0].at: this field and "from" exclude each other; give one of them.',
  ],
  [
    "a voltage at a node, with no reference node",
    { ...voltage({ at: "a" }), reference: null },
    'wanted[0].at: a voltage at a node is counted to the reference node, and the file names none; give "reference".',
  ],
  [
    "a voltage through a part",
    voltage({ through: "R1", from: "a", to: "b" }),
    "wanted[0].through: a wanted voltage does not use this field; leave it out.",
  ],
  [
    "power between nodes",
    wanted({ quantity: "power", through: "R1", from: "a" }),
    "wanted[0].from: a wanted power does not use this field; leave it out.",
  ],
  [
    "power across a part",
    wanted({ quantity: "power", through: "R1", across: "R1" }),
    "wanted[0].across: a wanted power does not use this field; leave it out.",
  ],
  [
    "power of an unknown part",
    wanted({ quantity: "power", through: "lamp" }),
    'wanted[0].through: no part is called "lamp".',
  ],
  [
    "a resistance from one node",
    wanted({ quantity: "resistance", from: "a" }),
    "wanted[0].to: this field is missing, and a wanted quantity needs it.",
  ],
  [
    "a port of one node",
    wanted({ quantity: "thevenin", from: "b", to: "b" }),
    'wanted[0].to: "b" is named at both ends; two different nodes are wanted.',
  ],
  [
    "a time constant of an unknown part",
    wanted({ quantity: "time-constant", through: "L1" }),
    'wanted[0].through: no part is called "L1".',
  ],
  [
    "one name for two quantities",
    wanted({ name: "Iy", quantity: "current", through: "R1" }, { name: "Iy", quantity: "power", through: "R1" }),
    'wanted[1].name: "Iy" is taken already, by wanted[0].',
  ],
  [
    "the voltage across an op amp",
    {
      ...plus({ id: "U1", kind: "ideal-opamp", nodes: ["0", "a", "b"] }),
      wanted: [{ quantity: "voltage", across: "U1" }],
    },
    'wanted[0].across: U1 is an ideal op amp, and "across" wants a part with two terminals.',
  ],
  [
    "the current from one winding to the other",
    {
      ...plus({ id: "T1", kind: "ideal-transformer", nodes: ["a", "0", "b", "c"], ratio: 2 }),
      wanted: [{ quantity: "current", through: "T1", from: "a", to: "b" }],
    },
    'wanted[0].to: "from" and "to" are on different windings of T1; name both ends of one winding.',
  ],
  [
    "a current that fits both windings",
    {
      ...plus({ id: "T1", kind: "ideal-transformer", nodes: ["a", "0", "a", "0"], ratio: 2 }),
      wanted: [{ quantity: "current", through: "T1", from: "a", to: "0" }],
    },
    'wanted[0]: "from" and "to" fit both windings of T1; say "winding": "primary" or "secondary".',
  ],
];

const line = (change: object) => resistor({ drawn: { from: [0, 0], to: [4, 0], ...change } });
const opAmp = (drawn: object) => plus({ id: "U1", kind: "ideal-opamp", nodes: ["0", "a", "b"], drawn });
const wires = (...lines: unknown[]) => ({ ...base, drawing: { wires: lines } });

const DRAWINGS: readonly Case[] = [
  [
    "a point that is no list",
    line({ from: 3 }),
    "elements[1].drawn.from: a list is wanted here, but this is the number 3.",
  ],
  [
    "a point of one number",
    line({ from: [3] }),
    "elements[1].drawn.from: a grid point is two whole numbers [x, y], but the list has 1 entry.",
  ],
  [
    "a point between grid points",
    line({ to: [4.5, 0] }),
    "elements[1].drawn.to[0]: a whole number is wanted here, but this is the number 4.5.",
  ],
  [
    "a point off the grid",
    line({ to: [10_001, 0] }),
    "elements[1].drawn.to[0]: the number 10001 is off the grid, which ends at −10000 and 10000.",
  ],
  [
    "a part at a slant",
    line({ to: [4, 3] }),
    "elements[1].drawn: lines run along the grid, but [0, 0] to [4, 3] is slanted.",
  ],
  [
    "a part of no length",
    line({ to: [0, 0] }),
    "elements[1].drawn: both ends are at [0, 0], so there is nothing between them.",
  ],
  [
    "a resistor with a centre",
    resistor({ drawn: { at: [0, 0] } }),
    "elements[1].drawn.from: this field is missing, and the place of a part with two terminals needs it.",
    "elements[1].drawn.to: this field is missing, and the place of a part with two terminals needs it.",
    "elements[1].drawn.at: the place of a part with two terminals has no such field.",
  ],
  [
    "an eighth of a turn",
    opAmp({ at: [0, 0], turn: 45 }),
    "elements[3].drawn.turn: the number 45 is not one of 0, 90, 180, 270.",
  ],
  [
    "a flip that is no yes or no",
    opAmp({ at: [0, 0], flip: 1 }),
    "elements[3].drawn.flip: true or false is wanted here, but this is the number 1.",
  ],
  ["a wire of one point", wires([[0, 0]]), "drawing.wires[0]: the list is too short: 2 entries are the least."],
  [
    "a wire at a slant",
    wires([
      [0, 0],
      [4, 0],
      [8, 4],
    ]),
    "drawing.wires[0][2]: lines run along the grid, but [4, 0] to [8, 4] is slanted.",
  ],
  [
    "a point of three numbers",
    wires([
      [0, 0],
      [4, 0, 0],
    ]),
    "drawing.wires[0][1]: a grid point is two whole numbers [x, y], but the list has 3 entries.",
  ],
  [
    "an unknown field",
    { ...base, drawing: { wire: [] } },
    'drawing.wire: a drawing has no such field; perhaps "wires" is meant.',
  ],
];

describe("text that is no circuit file gets one sentence that says where", () => {
  it.each(TEXTS)("%s", (_fault, input, ...sentences) => {
    expect(sentencesOf(readCircuitText(String(input)))).toEqual(sentences);
  });
});

const GROUPS: readonly Case[] = [
  ["no list", { ...grouped(), groups: "V1, V2" }, 'groups: a list is wanted here, but this is "V1, V2".'],
  ["a list in place of an object", grouped(["V1", "V2"]), "groups[0]: an object is wanted here, but this is a list."],
  ["no sources", grouped({}), "groups[0].sources: this field is missing, and a group of sources needs it."],
  [
    "a misspelt field",
    grouped({ sources: ["V1", "V2"], source: [] }),
    'groups[0].source: a group of sources has no such field; perhaps "sources" is meant.',
  ],
  ["one source", grouped({ sources: ["V1"] }), "groups[0].sources: the list is too short: 2 entries are the least."],
  [
    "a name that is no text",
    grouped({ sources: ["V1", 2] }),
    "groups[0].sources[1]: text is wanted here, but this is the number 2.",
  ],
  ["a source that is not there", grouped({ sources: ["V1", "V3"] }), 'groups[0].sources[1]: no part is called "V3".'],
  [
    "a part that is no source",
    grouped({ sources: ["V1", "V2"] }, { sources: ["R1", "V2"] }),
    "groups[1].sources[0]: R1 is a resistor, and a group is made of independent sources.",
  ],
  [
    "a source named twice",
    grouped({ sources: ["V1", "I1", "V1"] }),
    'groups[0].sources[2]: "V1" is named twice here; name each source once.',
  ],
  [
    "all sources",
    grouped({ sources: ["V1", "I1", "V2"] }),
    "groups[0].sources: these are all sources of the circuit, which is the total; leave the group out.",
  ],
  [
    "the same sources again, in another order",
    grouped({ sources: ["V1", "I1"] }, { sources: ["I1", "V1"] }),
    "groups[1].sources: the same sources are a group already, groups[0].",
  ],
  [
    "more groups than a board has",
    grouped(...new Array(21).fill({ sources: ["V1", "V2"] })),
    "groups: the list is too long: 20 entries are the most.",
  ],
];

describe.each([
  ["a file", WHOLE],
  ["an element", ELEMENTS],
  ["a value", VALUES],
  ["a control", CONTROLS],
  ["a wanted quantity", WANTED],
  ["a group of sources", GROUPS],
  ["a drawing", DRAWINGS],
])("what is wrong with %s is said in a sentence with its place", (_where, cases) => {
  it.each(cases)("%s", (_fault, input, ...sentences) => {
    expect(sentencesOf(readCircuitFile(input))).toEqual(sentences);
  });
});

describe("a file with several problems", () => {
  it("gets all of them, in the order of the file, those of shape and of meaning alike", () => {
    const file = {
      elements: [
        { ...V1, value: "3 Ω" },
        { ...R1, nodes: ["a"] },
        { ...R2, id: "V1" },
      ],
      reference: "e",
      wanted: [{ quantity: "current", through: "R5" }],
      groups: [{ sources: ["V1", "R5"] }],
      drawing: {
        wires: [
          [
            [0, 0],
            [1, 1],
          ],
        ],
      },
    };
    expect(sentencesOf(readCircuitFile(file))).toEqual([
      'elements[0].value: a voltage source takes volts (V), but "3 Ω" is a resistance.',
      "elements[1].nodes: a resistor has 2 nodes, but the list has 1 entry.",
      'elements[2].id: "V1" is taken already, by elements[0].',
      'reference: no part is joined to a node "e".',
      'wanted[0].through: no part is called "R5".',
      'groups[0].sources[1]: no part is called "R5".',
      "drawing.wires[0][1]: lines run along the grid, but [0, 0] to [1, 1] is slanted.",
    ]);
  });

  it("is not told that a part is unknown when that part is there and has a problem of its own", () => {
    const file = { ...resistor({ value: null }), wanted: [{ quantity: "current", through: "R1", from: "a", to: "b" }] };
    expect(sentencesOf(readCircuitFile(file))).toEqual([
      "elements[1].value: text or a number is wanted here, but this is null.",
    ]);
  });
});

describe("quantities that cannot be read keep the sentence of the quantity, after their place", () => {
  it.each([
    ["1,500 Ω", "ambiguousComma"],
    ["4k7K", "toleranceLetter"],
    ["3/0 Ω", "zeroDenominator"],
    ["seven", "notANumber"],
    ["1e999999 Ω", "exponentTooLarge"],
    ["5 cos(1000 t) Ω", "sinusoidNotWanted"],
  ])("%s", (value, code) => {
    const reading = readCircuitFile(resistor({ value }));
    expect(reading).toMatchObject({ ok: false, problems: [{ code: "badQuantity", path: ["elements", 1, "value"] }] });
    if (reading.ok) return;
    expect(reading.problems[0]).toMatchObject({ problem: { code } });
    expect(sentencesOf(reading)[0]).toMatch(/^elements\[1\]\.value: .*"/);
  });
});

function sentencesOf(reading: ReturnType<typeof readCircuitFile>): readonly string[] {
  return reading.ok ? [] : reading.problems.map(fileProblemText);
}
