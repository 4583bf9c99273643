import { quantityProblemText } from "../quantity";
import type { FilePath, FileProblem, FileSubject } from "./fileProblem";
import { SUBJECTS, UNITS } from "./fileWords";
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

type Sentences = { readonly [C in FileProblem["code"]]: (p: Extract<FileProblem, { code: C }>) => string };

const SENTENCES: Sentences = {
  emptyText: () => "the file is empty.",
  textTooLong: (p) => `the file is longer than ${p.limit / 1_000_000} million characters, the most that is read.`,
  notJson: (p) => jsonFaultText(p.fault),
  newerVersion: (p) => `version ${p.found} is newer than this program reads; it reads version ${p.reads}.`,
  otherFormat: (p) => `${p.found} is another format; a circuit file says "${p.format}".`,
  wrongType: (p) =>
    p.path.length === 0
      ? `a circuit file is ${p.expected}, but this is ${p.found}.`
      : `${p.expected} is wanted here, but this is ${p.found}.`,
  missingField: (p) => `this field is missing, and ${SUBJECTS[p.subject]} needs it.`,
  unknownField: (p) =>
    p.nearest === null
      ? `${SUBJECTS[p.subject]} has no such field.`
      : `${SUBJECTS[p.subject]} has no such field; perhaps "${p.nearest}" is meant.`,
  notOneOf: (p) => notOneOfText(p),
  nodeCount: (p) => nodeCountText(p.subject, p.wanted, p.found),
  pointLength: (p) =>
    `a grid point is two whole numbers [x, y], but the list has ${counted(p.found, "entry", "entries")}.`,
  badName: (p) => badNameText(p.fault),
  tooMany: (p) => `the list is too long: ${p.limit} entries are the most.`,
  tooFew: (p) => `the list is too short: ${p.least} entries are the least.`,
  tooLong: (p) => `the text is too long: ${p.limit} characters are the most.`,
  offGrid: (p) => `${p.found} is off the grid, which ends at −${p.limit} and ${p.limit}.`,
  controlForm: (p) => controlFormText(p.subject),
  gainUnit: (p) => gainUnitText(p.subject, p.found),
  badQuantity: (p) => badQuantityText(p),
  numberOfManyDigits: (p) =>
    `this number has ${p.digits} digits and may have been rounded; put it in quotes to keep it exact.`,
  zeroValue: (p) => ZERO_TEXT[p.subject],
  frequencyNotPositive: () => 'a frequency is more than 0; a constant is given by "value" alone.',
  eitherOr: (p) =>
    p.given === "both"
      ? `this field and "${p.other}" say the same thing; give one of them.`
      : `this field is missing, and ${SUBJECTS[p.subject]} needs it or "${p.other}".`,
  notASinusoid: () => "this field belongs to a sinusoid, and this source is constant.",
  saidInValue: () => '"value" is a whole sinusoid already; leave this field out.',
  notAlongGrid: (p) => `lines run along the grid, but ${p.from} to ${p.to} is slanted.`,
  noLength: (p) => `both ends are at ${p.at}, so there is nothing between them.`,
  nameTaken: (p) => `"${p.name}" is taken already, by ${filePathText(p.by)}.`,
  unknownPart: (p) => `no part is called "${p.part}"${perhaps(p.nearest)}.`,
  unknownNode: (p) => `no part is joined to a node "${p.node}"${perhaps(p.nearest)}.`,
  notATerminal: (p) => `"${p.node}" is not a terminal of ${p.part}, which lies between ${quotedAnd(p.terminals)}.`,
  sameNode: (p) => `"${p.node}" is named at both ends; two different nodes are wanted.`,
  otherWinding: (p) => `"from" and "to" are on different windings of ${p.part}; name both ends of one winding.`,
  whichWinding: (p) => `"from" and "to" fit both windings of ${p.part}; say "winding": "primary" or "secondary".`,
  noWindings: (p) => `${p.part} is no transformer, so it has no windings.`,
  directionClash: () => `"direction" says one way, and "from" and "to" say the other; give one of them.`,
  notTwoTerminal: (p) => `${p.part} is ${SUBJECTS[p.subject]}, and "across" wants a part with two terminals.`,
  notUsedHere: (p) => `a wanted ${p.quantity} does not use this field; leave it out.`,
  needsFromTo: () => 'this field is missing: a wanted voltage needs "from" and "to", or "across", or "at".',
  fieldClash: (p) => `this field and "${p.other}" exclude each other; give one of them.`,
  noReferenceNode: () =>
    'a voltage at a node is counted to the reference node, and the file names none; give "reference".',
  notASource: (p) => `${p.part} is ${SUBJECTS[p.subject]}, and a group is made of independent sources.`,
  namedTwice: (p) => `"${p.name}" is named twice here; name each source once.`,
  groupOfAll: () => "these are all sources of the circuit, which is the total; leave the group out.",
  groupTaken: (p) => `the same sources are a group already, ${filePathText(p.by)}.`,
};

function sentenceOf(problem: FileProblem): string {
  // The table pairs each code with its own sentence; the compiler cannot follow the pair through the look-up.
  const sentence = SENTENCES[problem.code] as (p: FileProblem) => string;
  return sentence(problem);
}

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

function notOneOfText({ found, allowed, nearest }: Extract<FileProblem, { code: "notOneOf" }>): string {
  if (nearest !== null) return `${found} is not known here; perhaps "${nearest}" is meant.`;
  return allowed.length === 1
    ? `${listText(allowed)} is wanted here, but this is ${found}.`
    : `${found} is not one of ${listText(allowed)}.`;
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

function badQuantityText({ path, subject, takes, problem }: Extract<FileProblem, { code: "badQuantity" }>): string {
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

function listText(allowed: readonly (string | number)[]): string {
  return allowed.map((word) => JSON.stringify(word)).join(", ");
}

function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

function shortened(key: string): string {
  return key.length > 40 ? `${key.slice(0, 39)}…` : key;
}
