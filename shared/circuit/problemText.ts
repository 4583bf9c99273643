import { type Rational, unreachable, writeQuantity } from "../quantity";
import type { Problem, Severity } from "./problem";

/** "A", "A and B", "A, B and C". */
export function listed(names: readonly string[]): string {
  if (names.length <= 1) return names[0] ?? "";
  return `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`;
}

/** What a problem does: it leaves the whole circuit unsolved, is a fault of one thing, or is only said. */
const EFFECTS: Readonly<Record<Problem["code"], "stops" | "fault" | "notice">> = {
  noParts: "stops",
  voltageSourceLoop: "stops",
  currentSourceCut: "stops",
  opAmpWithoutFeedback: "stops",
  controlMissing: "stops",
  controlUndetermined: "stops",
  singularEquations: "stops",
  floatingSection: "fault",
  wantedUnknownPart: "fault",
  wantedUnknownNode: "fault",
  wantedUndetermined: "fault",
  noEquivalent: "fault",
  steadyStateOnly: "fault",
  largeResidual: "fault",
  noReference: "notice",
  isolatedSection: "notice",
  danglingTerminal: "notice",
  shortedPart: "notice",
  opAmpPositiveFeedback: "notice",
  zeroResistance: "notice",
  negativeValue: "notice",
  undeterminedCurrent: "notice",
  constantSteadyState: "notice",
  beyondExtraLowVoltage: "notice",
  inDoubles: "notice",
};

/** Whether the circuit has no single solution; what is merely loose, isolated or worth saying does not stop the rest. */
export function stopsSolving(problem: Problem): boolean {
  return EFFECTS[problem.code] === "stops";
}

/** A fault is to be mended before the answers that it touches exist; a notice is allowed and only said. */
export function severityOf(problem: Problem): Severity {
  // A section behind an open switch or a capacitor is as it should be.
  if (problem.code === "floatingSection" && problem.heldOffBy.length > 0) return "notice";
  return EFFECTS[problem.code] === "notice" ? "notice" : "fault";
}

/** One or two plain sentences: what is found, and what to do. */
export function problemText(problem: Problem): string {
  switch (problem.code) {
    case "noParts":
      return "There is nothing to solve yet. Draw a source and a part that it drives.";
    case "noReference":
      return `No reference node is marked, so node ${problem.chosen} is taken as 0 V. Mark another one to change that.`;
    case "floatingSection":
      return floatingText(problem.nodes, problem.parts, problem.heldOffBy);
    case "isolatedSection":
      return `${nodesText(problem.nodes)} meet the rest only through a transformer, so their voltages are counted from node ${problem.chosen}.`;
    case "danglingTerminal":
      return `${problem.part} has a loose end at node ${problem.node}, so no current can flow in it. Join that end, or remove ${problem.part}.`;
    case "shortedPart":
      return `Both ends of ${problem.part} are at node ${problem.node}, so it has no voltage. Move one end, or remove it.`;
    case "voltageSourceLoop":
      return loopText(problem.parts, problem.mismatch);
    case "currentSourceCut":
      return cutText(problem.parts, problem.nodes, problem.mismatch);
    case "opAmpWithoutFeedback":
      return `The output of ${problem.part} does not reach its inverting input, so nothing keeps its inputs equal. Give it a feedback path, for instance a resistor from the output to the inverting input.`;
    case "opAmpPositiveFeedback":
      return `${problem.part} has feedback to its non-inverting input only. The equal-input rule gives the numbers shown, but a real amplifier would run to its limit: check which input the feedback goes to.`;
    case "controlMissing":
      return `${problem.part} follows ${problem.control}, which is not in the circuit. Choose what it follows.`;
    case "controlUndetermined":
      return `What ${problem.part} follows (${problem.control}) is not determined by the circuit. Tie it to the rest, or remove what bypasses it.`;
    case "singularEquations":
      return singularText(problem.parts, problem.nodes, problem.omega);
    case "zeroResistance":
      return `${listed(problem.parts)} ${verb(problem.parts, "has", "have")} 0 Ω and ${verb(problem.parts, "is", "are")} treated as ${verb(problem.parts, "a wire", "wires")}.`;
    case "negativeValue":
      return `${listed(problem.parts)} ${verb(problem.parts, "has a negative value", "have negative values")}. That is allowed; check that the sign is meant.`;
    case "wantedUnknownPart":
      return `${problem.wanted} asks for ${problem.part}, which is not in the circuit. Choose another part.`;
    case "wantedUnknownNode":
      return `${problem.wanted} asks for node ${problem.node}, which is not in the circuit. Choose another node.`;
    case "wantedUndetermined":
      return `${problem.wanted} is not determined by the circuit${problem.parts.length > 0 ? `: ${listed(problem.parts)} may share their current in any way` : ", since nothing ties its two nodes together"}. Ask for another quantity, or change the circuit.`;
    case "undeterminedCurrent":
      return `${listed(problem.parts)} bypass each other without resistance, so how the current divides among them is not determined. All other answers stand.`;
    case "noEquivalent":
      return equivalentText(problem.wanted, problem.reason);
    case "steadyStateOnly":
      return `${problem.wanted} asks for a change in time. Only steady states are solved here: constant sources, or sinusoids that have been on for long.`;
    case "constantSteadyState":
      return `For constant sources ${listed(problem.parts)} ${verb(problem.parts, "is", "are")} taken in the steady state: a capacitor carries no current, an inductor has no voltage.`;
    case "beyondExtraLowVoltage":
      return `${listed(problem.parts)} ${verb(problem.parts, "is", "are")} at more than extra-low voltage (50 V AC or 120 V DC). These numbers are an exercise on paper and do not make a circuit safe to build or touch: follow local codes and leave such work to licensed people.`;
    case "inDoubles":
      return `The circuit has ${problem.unknowns} unknowns, more than the ${problem.limit} that are solved in exact fractions, so its answers are rounded to about 12 digits.`;
    case "largeResidual":
      return `At ${omegaText(problem.omega)} the equations are so nearly singular that the answers are not to be trusted (relative residual ${problem.residual.toExponential(1)}). Look for a resonance without resistance.`;
    default:
      return unreachable(problem);
  }
}

function verb(names: readonly string[], one: string, many: string): string {
  return names.length === 1 ? one : many;
}

function nodesText(nodes: readonly string[]): string {
  return nodes.length === 1 ? `Node ${nodes[0]}` : `Nodes ${listed(nodes)}`;
}

function omegaText(omega: number): string {
  return `${Number(omega.toPrecision(6))} rad/s`;
}

function floatingText(nodes: readonly string[], parts: readonly string[], heldOffBy: readonly string[]): string {
  const what = parts.length > 0 ? `${listed(parts)} at ${nodesText(nodes).toLowerCase()}` : nodesText(nodes);
  const are = parts.length + (parts.length > 0 ? 0 : nodes.length) === 1 ? "is" : "are";
  if (heldOffBy.length > 0) {
    return `${what} ${are} held off from the rest by ${listed(heldOffBy)}, so ${nodes.length === 1 ? "its voltage is" : "their voltages are"} not determined. All other answers stand.`;
  }
  return `${what} ${are} not joined to the rest of the circuit. Join ${are === "is" ? "it" : "them"} with a wire, or remove ${are === "is" ? "it" : "them"}.`;
}

function loopText(parts: readonly string[], mismatch: Rational | null): string {
  if (parts.length === 1)
    return `Both ends of ${parts[0]} are joined by nothing but wire, which allows no voltage. Open the loop.`;
  const names = listed(parts);
  if (mismatch === null)
    return `${names} form a loop of voltage sources and shorts, so their currents are not determined. Put a resistance into the loop.`;
  if (mismatch.n === 0n) {
    return `${names} form a loop of voltage sources and shorts. Their voltages agree, but their currents are not determined. Remove one, or put a resistance into the loop.`;
  }
  return `${names} form a loop whose voltages add up to ${absoluteText(mismatch, "V")} instead of 0 V. Change a value, or put a resistance into the loop.`;
}

function cutText(parts: readonly string[], nodes: readonly string[], mismatch: Rational | null): string {
  const where = nodesText(nodes).toLowerCase();
  const only = `${listed(parts)} ${verb(parts, "is the only way", "are the only ways")} for current to or from ${where}`;
  if (mismatch === null || mismatch.n === 0n) {
    return `${only}, so the voltage there is not determined. Add a path that is not a current source.`;
  }
  return `${only}, and ${absoluteText(mismatch, "A")} more ${mismatch.n > 0n ? "flows in than out" : "flows out than in"}. Add a path for that current, or change a value.`;
}

function absoluteText(value: Rational, unit: "V" | "A"): string {
  return writeQuantity({ n: value.n < 0n ? -value.n : value.n, d: value.d }, unit).text;
}

function singularText(parts: readonly string[], nodes: readonly string[], omega: number | null): string {
  const at = omega === null ? "" : ` at ${omegaText(omega)}`;
  const where = nodes.length > 0 ? ` (seen at ${nodesText(nodes).toLowerCase()})` : "";
  const cause = parts.length > 0 ? `With ${listed(parts)} as ${verb(parts, "it is", "they are")}, the` : "The";
  return `${cause} equations have no single solution${at}${where}. Change a gain or a value, or a connection there.`;
}

function equivalentText(
  wanted: string,
  reason: "ideal voltage source" | "ideal current source" | "not positive",
): string {
  switch (reason) {
    case "ideal voltage source":
      return `${wanted} does not exist: seen from those nodes the circuit is an ideal voltage source, with no resistance in series.`;
    case "ideal current source":
      return `${wanted} does not exist: seen from those nodes the circuit is an ideal current source, with no path beside it.`;
    case "not positive":
      return `${wanted} has no largest power: the resistance seen from those nodes is not positive.`;
  }
}
