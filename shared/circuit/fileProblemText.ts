import { type QuantityProblem, quantityProblemText, type UnitSymbol, unreachable } from "../quantity";
import type { FilePath, FileProblem, FileSubject } from "./fileProblem";
import type { JsonFault } from "./jsonFault";
import type { PartKind } from "./part";

/** One plain sentence with its place first: `elements[3].value: a resistor takes ohms (Ω), but "5 mA" is a current.` */
export function fileProblemText(problem: FileProblem): string {
  const sentence = sentenceOf(problem);
  return problem.path.length === 0 ? sentence : `${filePathText(problem.path)}: ${sentence}`;
}

/** `elements[3].value`; a key that is no plain word is quoted: `elements[3]["my value"]`. */
export function filePathText(path: FilePath): string {
  const steps = path.map((key) => {
    if (typeof key === "number") return `[${key}]`;
    return /^[\p{L}_][\p{L}\p{N}_-]{0,39}$/u.test(key) ? `.${key}` : `[${JSON.stringify(shortened(key))}]`;
  });
  return steps.join("").replace(/^\./, "");
}

function sentenceOf(problem: FileProblem): string {
  switch (problem.code) {
    case "emptyText":
      return "the file is empty.";
    case "textTooLong":
      return `the file is longer than ${problem.limit / 1_000_000} million characters, the most that is read.`;
    case "notJson":
      return jsonFaultText(problem.fault);
    case "newerVersion":
      return `version ${problem.found} is newer than this program reads; it reads version ${problem.reads}.`;
    case "otherFormat":
      return `${problem.found} is another format; a circuit file says "${problem.format}".`;
    case "wrongType":
      return problem.path.length === 0
        ? `a circuit file is ${problem.expected}, but this is ${problem.found}.`
        : `${problem.expected} is wanted here, but this is ${problem.found}.`;
    case "missingField":
      return `this field is missing, and ${SUBJECTS[problem.subject]} needs it.`;
    case "unknownField":
      return problem.nearest === null
        ? `${SUBJECTS[problem.subject]} has no such field.`
        : `${SUBJECTS[problem.subject]} has no such field; perhaps "${problem.nearest}" is meant.`;
    case "notOneOf":
      return problem.nearest === null
        ? `${problem.found} is not one of ${listText(problem.allowed)}.`
        : `${problem.found} is not known here; perhaps "${problem.nearest}" is meant.`;
    case "nodeCount":
      return nodeCountText(problem.subject, problem.wanted, problem.found);
    case "pointLength":
      return `a grid point is two whole numbers [x, y], but the list has ${counted(problem.found, "entry", "entries")}.`;
    case "badName":
      return badNameText(problem.fault);
    case "tooMany":
      return `the list is too long: ${problem.limit} entries are the most.`;
    case "tooFew":
      return `the list is too short: ${problem.least} entries are the least.`;
    case "tooLong":
      return `the text is too long: ${problem.limit} characters are the most.`;
    case "offGrid":
      return `${problem.found} is off the grid, which ends at −${problem.limit} and ${problem.limit}.`;
    case "controlForm":
      return controlFormText(problem.subject);
    case "gainUnit":
      return gainUnitText(problem.subject, problem.found);
    case "badQuantity":
      return badQuantityText(problem.path, problem.subject, problem.takes, problem.problem);
    case "numberOfManyDigits":
      return `this number has ${problem.digits} digits and may have been rounded; put it in quotes to keep it exact.`;
    case "zeroValue":
      return ZERO_TEXT[problem.subject];
    case "frequencyNotPositive":
      return 'a frequency is more than 0; a constant is given by "value" alone.';
    case "eitherOr":
      return problem.given === "both"
        ? `this field and "${problem.other}" say the same thing; give one of them.`
        : `this field is missing, and ${SUBJECTS[problem.subject]} needs it or "${problem.other}".`;
    case "notASinusoid":
      return "this field belongs to a sinusoid, and this source is constant.";
    case "saidInValue":
      return '"value" is a whole sinusoid already; leave this field out.';
    case "notAlongGrid":
      return `lines run along the grid, but ${problem.from} to ${problem.to} is slanted.`;
    case "noLength":
      return `both ends are at ${problem.at}, so there is nothing between them.`;
    case "nameTaken":
      return `"${problem.name}" is taken already, by ${filePathText(problem.by)}.`;
    case "unknownPart":
      return `no part is called "${problem.part}"${perhaps(problem.nearest)}.`;
    case "unknownNode":
      return `no part is joined to a node "${problem.node}"${perhaps(problem.nearest)}.`;
    case "notATerminal":
      return `"${problem.node}" is not a terminal of ${problem.part}, which lies between ${quotedAnd(problem.terminals)}.`;
    case "sameNode":
      return `"${problem.node}" is named at both ends; two different nodes are wanted.`;
    case "otherWinding":
      return `"from" and "to" are on different windings of ${problem.part}; name both ends of one winding.`;
    case "whichWinding":
      return `"from" and "to" fit both windings of ${problem.part}; say "winding": "primary" or "secondary".`;
    case "noWindings":
      return `${problem.part} is no transformer, so it has no windings.`;
    case "directionClash":
      return `"direction" says one way, and "from" and "to" say the other; give one of them.`;
    case "notTwoTerminal":
      return `${problem.part} is ${SUBJECTS[problem.subject]}, and "across" wants a part with two terminals.`;
    case "notUsedHere":
      return `a wanted ${problem.quantity} does not use this field; leave it out.`;
    case "needsFromTo":
      return 'this field is missing: a wanted voltage needs "from" and "to", or "across", or "at".';
    case "fieldClash":
      return `this field and "${problem.other}" exclude each other; give one of them.`;
    case "noReferenceNode":
      return 'a voltage at a node is counted to the reference node, and the file names none; give "reference".';
    default:
      return unreachable(problem);
  }
}

const SUBJECTS: Readonly<Record<FileSubject, string>> = {
  resistor: "a resistor",
  capacitor: "a capacitor",
  inductor: "an inductor",
  "voltage-source": "a voltage source",
  "current-source": "a current source",
  vcvs: "a voltage-controlled voltage source",
  vccs: "a voltage-controlled current source",
  ccvs: "a current-controlled voltage source",
  cccs: "a current-controlled current source",
  "ideal-opamp": "an ideal op amp",
  "ideal-transformer": "an ideal transformer",
  switch: "a switch",
  wire: "a wire",
  "circuit file": "a circuit file",
  element: "every element",
  wanted: "a wanted quantity",
  drawing: "a drawing",
  object: "the object around it",
};

/** What a quantity is counted in, and what a quantity in that unit is. */
const UNITS: Readonly<Record<UnitSymbol, { readonly counted: string; readonly kind: string }>> = {
  Ω: { counted: "ohms (Ω)", kind: "a resistance" },
  S: { counted: "siemens (S)", kind: "a conductance" },
  V: { counted: "volts (V)", kind: "a voltage" },
  A: { counted: "amperes (A)", kind: "a current" },
  W: { counted: "watts (W)", kind: "a power" },
  F: { counted: "farads (F)", kind: "a capacitance" },
  H: { counted: "henries (H)", kind: "an inductance" },
  Hz: { counted: "hertz (Hz)", kind: "a frequency" },
  "rad/s": { counted: "radians per second (rad/s)", kind: "an angular frequency" },
  s: { counted: "seconds (s)", kind: "a time" },
  "°": { counted: "degrees (°)", kind: "an angle" },
  "1": { counted: "a number without a unit", kind: "a number without a unit" },
};

const ZERO_TEXT = {
  capacitor: "a capacitor of 0 F is an open circuit; leave it out or give it a value.",
  inductor: 'an inductor of 0 H is a wire; give it a value or the kind "wire".',
  "ideal-transformer": "the ratio of an ideal transformer is not 0.",
} as const;

const TERMINAL_NAMES = new Map<FileSubject, string>([
  ["ideal-opamp", " (in+, in−, out)"],
  ["ideal-transformer", " (primary +, primary −, secondary +, secondary −)"],
]);

function jsonFaultText(fault: JsonFault): string {
  const found = fault.found === null ? "the file ends here" : `${fault.found} stands here`;
  return `line ${fault.line}, column ${fault.column}: ${fault.expected} is wanted, but ${found}.`;
}

function nodeCountText(subject: FileSubject, wanted: number, found: number): string {
  const terminals = TERMINAL_NAMES.get(subject) ?? "";
  return `${SUBJECTS[subject]} has ${wanted} nodes${terminals}, but the list has ${counted(found, "entry", "entries")}.`;
}

function badNameText(fault: "empty" | "spaces" | "control"): string {
  if (fault === "empty") return "a name has at least one visible character.";
  return fault === "spaces" ? "a name has no spaces at its ends." : "a name has no line breaks or control characters.";
}

function controlFormText(subject: PartKind): string {
  return subject === "vcvs" || subject === "vccs"
    ? `${SUBJECTS[subject]} follows a voltage, written {"voltage": ["plus node", "minus node"]}.`
    : `${SUBJECTS[subject]} follows a current, written {"current": "name of a part"}.`;
}

function gainUnitText(subject: PartKind, found: string): string {
  if (subject === "vccs") return `the gain of ${SUBJECTS.vccs} is in "S", but this is ${found}.`;
  if (subject === "ccvs") return `the gain of ${SUBJECTS.ccvs} is in "Ω", but this is ${found}.`;
  return `the gain of ${SUBJECTS[subject]} is a ratio and has no unit; leave this field out.`;
}

function badQuantityText(path: FilePath, subject: PartKind, takes: UnitSymbol, problem: QuantityProblem): string {
  if (problem.code !== "wrongUnit") return quantityProblemText(problem);
  return `${takerText(path, subject)} takes ${UNITS[takes].counted}, but "${problem.text}" is ${UNITS[problem.found].kind}.`;
}

function takerText(path: FilePath, subject: PartKind): string {
  const field = path.at(-1);
  if (field === "phase") return "a phase";
  if (field === "omega") return "an angular frequency";
  if (field === "frequency") return "a frequency";
  return field === "gain" || field === "ratio" ? `the ${field} of ${SUBJECTS[subject]}` : SUBJECTS[subject];
}

function perhaps(nearest: string | null): string {
  return nearest === null ? "" : `; perhaps "${nearest}" is meant`;
}

function quotedAnd(words: readonly string[]): string {
  const quoted = words.map((word) => `"${word}"`);
  return quoted.length < 2 ? quoted.join("") : `${quoted.slice(0, -1).join(", ")} and ${quoted.at(-1)}`;
}

function listText(allowed: readonly string[]): string {
  return allowed.map((word) => (/^\d+$/.test(word) ? word : `"${word}"`)).join(", ");
}

function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

function shortened(key: string): string {
  return key.length > 40 ? `${key.slice(0, 39)}…` : key;
}
