// Longer than a file should be, since it is a list: the four sentences of each mistake.

import type { PartId } from "../../circuit";
import { listed } from "../../circuit/problemText";
import { unreachable } from "../../quantity";
import type { Explanation } from "./explanation";
import type { Mistake } from "./mistake";

/** What is said of a mistake, rung by rung; each says no more than its rung. */
export type MistakeWords = {
  /** What was done, behind “did you”: for the question that tells two mistakes apart. */
  readonly deed: string;
  /** Where to look. */
  readonly where: string;
  readonly principle: string;
  readonly fix: string;
};

/** The rungs for an explanation: those of its first mistake, with the addend in which it was made. */
export function explanationWords({ mistakes, addend }: Explanation): MistakeWords {
  const [first, second] = mistakes.map(mistakeWords);
  if (first === undefined) throw new Error("explanationWords: an explanation without a mistake");
  const inAddend =
    addend === null ? first : { ...first, where: `Look at the addend of ${listed(addend)}. ${first.where}` };
  if (second === undefined) return inAddend;
  return {
    deed: `${inAddend.deed}, and ${second.deed}`,
    where: `${inAddend.where} ${second.where}`,
    principle: `${inAddend.principle} ${second.principle}`,
    fix: `${inAddend.fix} ${second.fix}`,
  };
}

/** Asks which of two mistakes was made, where both lead to the value entered. */
export function tellingQuestion(a: Explanation, b: Explanation): string {
  return `Two ways lead to this value. Did you ${explanationWords(a).deed}, or did you ${explanationWords(b).deed}?`;
}

/** What is said of a value that rightly adds up earlier ones, of which those of these sources are wrong. */
export function followsText(wrong: readonly (readonly PartId[])[]): string {
  if (wrong.length === 0) {
    return "This follows from the values before it, which were rounded: carry more figures until the sum is found.";
  }
  const addends = wrong.map((sources) => `the addend of ${listed(sources)}`);
  return `This follows from the values before it. Still to be mended: ${listed(addends)}.`;
}

/** The words for one mistake. */
export function mistakeWords({ code, parts, node }: Mistake): MistakeWords {
  const all = listed(parts);
  const [one = "", other = ""] = parts;
  switch (code) {
    case "addendForgotten":
      return words(
        `leave the addend of ${all} out`,
        "Count the addends in your sum, and the independent sources in the circuit.",
        "The total has one addend for each independent source.",
        `Add the addend of ${all}.`,
      );
    case "addendSignTurned":
      return words(
        `take the addend of ${all} with the other sign`,
        "Compare the direction of each addend with the reference direction.",
        "An addend that runs against the reference direction is added with a minus sign.",
        `Turn the sign of the addend of ${all}.`,
      );
    case "signsIgnored":
      return words(
        "add the addends without their signs",
        "Do all the addends run in the reference direction?",
        "Addends are added with the sign that the one reference direction gives them.",
        "Give each addend that runs against the reference direction a minus sign, then add.",
      );
    case "sourceCountedTwice":
      return words(
        `take the addend of ${all} twice`,
        "How often does each source stand in your sum?",
        "Each independent source acts in exactly one addend.",
        `Take one of the two addends of ${all} out.`,
      );
    case "powersAdded":
      return words(
        "add the powers that the sources give one by one",
        "What happens to a power if its current doubles?",
        "Power goes with the square of current or voltage, so powers of addends do not add.",
        "Add the currents or voltages first, and take the power of the total.",
      );
    case "magnitudesAdded":
      return words(
        "add the sizes of the phasors",
        "Are the addends largest at the same moment?",
        "Phasors add as vectors, with their angles.",
        "Add real and imaginary parts, each by itself.",
      );
    case "frequenciesMixed":
      return words(
        "add phasors of different frequencies",
        "Which frequency belongs to each phasor?",
        "Phasors can be added at one frequency only.",
        "Write each addend as a function of time, and add these.",
      );
    case "signTurned":
      return words(
        "take the opposite reference direction",
        "Compare your direction with the reference direction of the problem.",
        "Against the reference direction, the same current or voltage has the opposite sign.",
        "Turn the sign round.",
      );
    case "polarityTurned":
      return words(
        `take ${one} with its polarity turned round`,
        "Look at the polarity of each source, or at its arrow.",
        "A source enters the equations with the polarity that is drawn.",
        `Turn the sign of ${one} in your equation.`,
      );
    case "sourceLeftOn":
      return words(
        `leave ${one} on`,
        "Count the sources that act in this circuit.",
        "In an addend only its own sources act; the other independent sources are zeroed.",
        `Zero ${one} here; its part comes in its own addend.`,
      );
    case "everySourceLeftOn":
      return words(
        "leave all sources on",
        "Count the sources that act in this circuit.",
        "In an addend only its own sources act; the other independent sources are zeroed.",
        `Zero ${all} here: this is the total, not the addend.`,
      );
    case "voltageSourceOpened":
      return words(
        `make ${all} an open`,
        "What have the zeroed sources become?",
        "A voltage source of 0 V keeps its two ends at one voltage and lets any current pass: it is a short.",
        `Put a short in the place of ${all}.`,
      );
    case "currentSourceShorted":
      return words(
        `make ${all} a short`,
        "What have the zeroed sources become?",
        "A current source of 0 A lets no current pass, whatever its voltage: it is an open.",
        `Leave the place of ${all} open.`,
      );
    case "zeroingSwapped":
      return words(
        "make the voltage sources opens and the current sources shorts",
        "What have the zeroed sources become?",
        "A voltage source of 0 V is a short; a current source of 0 A is an open.",
        `Exchange what ${all} have become.`,
      );
    case "actingZeroed":
      return words(
        `zero ${all}`,
        "Which source is this circuit for?",
        "In an addend its own sources stay as they are; only the other independent sources are zeroed.",
        `Put ${all} back.`,
      );
    case "dependentZeroed":
      return words(
        `zero ${one}`,
        "Look at each source: what sets its value?",
        "A dependent source follows the circuit, so it stays in every addend.",
        `Put ${one} back, with its control as it is in this circuit.`,
      );
    case "dependentFrozen":
      return words(
        `keep ${one} at the value that it has with all sources on`,
        `In which circuit was the control of ${one} found?`,
        "The control of a dependent source has a value of its own in each addend.",
        `Solve for the control of ${one} in this circuit.`,
      );
    case "sourcesLeftOnInEquivalent":
      return words(
        `zero ${one} the wrong way`,
        "What do the independent sources become when you look in from the two nodes?",
        "The equivalent resistance is seen with voltage sources as shorts and current sources as opens.",
        `Zero ${one} as its kind asks, and combine again.`,
      );
    case "divisionTurned":
      return words(
        "put the wrong resistance on top of the division",
        `Look at the division between ${all}.`,
        "In parallel the larger share of the current takes the smaller resistance; in series the larger share of the voltage stands across the larger.",
        "For a current, the resistance of the other branch goes on top; for a voltage, its own.",
      );
    case "undivided":
      return words(
        `give the whole of what ${all} share`,
        `Look at what ${all} share.`,
        "A current that comes to several branches divides among them, and so does a voltage among parts in a row: each has its share.",
        "Multiply by the share: for a current the resistance of the other branch over the sum, for a voltage its own over the sum.",
      );
    case "divisionUpsideDown":
      return words(
        "turn the fraction of the division over",
        `Is this voltage smaller than what stands across ${all} together?`,
        "A share is less than the whole.",
        "Divide the own resistance by the sum.",
      );
    case "otherBranchesSummed":
      return words(
        "put the sum of the other resistances on top",
        `Do the currents that you give to ${all} add up to what flows in?`,
        "Among more than two branches, current divides as conductances do.",
        "Take the branch’s conductance over the sum of all conductances.",
      );
    case "oneOtherBranch":
      return words(
        `divide between ${all} alone`,
        "Which branches share this current?",
        "All branches between the two nodes share it.",
        "Take all the other branches together first, then divide between two.",
      );
    case "equivalentOverSum":
      return words(
        "put the equivalent resistance over a sum",
        `What voltage do ${all} have in common?`,
        "The common voltage is the current times the equivalent resistance; each branch current is that voltage over its own resistance.",
        "Divide the equivalent resistance by the branch’s own.",
      );
    case "evenSplit":
      return words(
        `divide evenly among ${all}`,
        `Are the resistances of ${all} equal?`,
        "Shares are equal only where resistances are.",
        "Weigh currents by conductances, voltages by resistances.",
      );
    case "parallelAsSeries":
      return words(
        `add ${all}`,
        `Name the two nodes at the ends of each of ${all}.`,
        "Parts with both nodes in common are in parallel: one voltage, and less resistance than the smallest.",
        `Take ${all} in parallel.`,
      );
    case "seriesAsParallel":
      return words(
        `take ${all} in parallel`,
        `Does the same current pass ${all}?`,
        "Parts that carry one current, with nothing else at the node between, are in series: their resistances add.",
        `Add ${all}.`,
      );
    case "sumOfReciprocals":
      return words(
        `leave the sum of reciprocals of ${all} as it was`,
        "Which unit has the sum that you took for a resistance?",
        "A sum of 1/R is a conductance.",
        "Take the reciprocal of the sum.",
      );
    case "sourceForEquivalent":
      return words(
        `take the voltage of ${one} itself`,
        `Is there any voltage between ${one} and the two nodes?`,
        "The open-circuit voltage is what stands between the two nodes with nothing joined to them.",
        "Find the voltage between the two nodes, by division or by node equations.",
      );
    case "peakAndRms":
      return words(
        "mix peak and rms values",
        "Is the value that is given a peak or an rms value, and which one is asked for?",
        "For a sinusoid the peak is √2 times the rms value.",
        "Convert once, and stay with one of the two.",
      );
    case "peakToPeak":
      return words(
        "count from trough to crest",
        "Is your value counted from zero or from trough to crest?",
        "The peak value is half of what lies between trough and crest, and the rms value is the peak value over √2.",
        "Count from zero, as a peak or as an rms value, as the sources are given.",
      );
    case "conjugated":
      return words(
        "turn the sign of the phase",
        "Which comes first, the voltage or the current?",
        "In a capacitor the current leads the voltage, in an inductor it lags.",
        "Turn the sign of the phase round.",
      );
    case "reactanceSignTurned":
      return words(
        `take ${all} with the other sign of reactance`,
        `Look at the sign of the reactance of ${all}.`,
        "An inductor has jωL; a capacitor has 1/(jωC) = −j/(ωC).",
        `Turn the sign of the reactance of ${all}.`,
      );
    case "capacitorInverted":
      return words(
        `take jωC for the impedance of ${all}`,
        `What does ${all} let pass at a very low frequency?`,
        "The impedance of a capacitor falls as the frequency rises.",
        "Take the reciprocal: 1/(jωC).",
      );
    case "reactanceAsResistance":
      return words(
        `add the reactance of ${all} like a resistance`,
        `At which angle does the reactance of ${all} stand to a resistance?`,
        "Resistance and reactance are at right angles.",
        "Keep the j, and add as complex numbers.",
      );
    case "hertzAsRadians":
      return words(
        "take hertz for radians per second, or the other way about",
        "In which unit is the frequency given?",
        "ω = 2πf: hertz are multiplied by 2π once, radians per second are not.",
        "Use ω in radians per second.",
      );
    case "otherFrequency":
      return words(
        `use impedances at the frequency of ${one}`,
        "At which frequency were the impedances of this circuit found?",
        "Each addend has the impedances of its own frequency.",
        "Find the impedances again at the frequency of the source that acts.",
      );
    case "sourcePhaseMissing":
      return words(
        `leave the phase of ${all} out`,
        "Which sources are given with a phase?",
        "The phasor of a source has the angle that is given with it.",
        `Give ${all} the phase that is written there.`,
      );
    case "sineAsCosine":
      return words(
        `mix sine and cosine for ${one}`,
        `Is ${one} given as a sine or as a cosine?`,
        "All phasors need one reference: sin x = cos(x − 90°).",
        `Write ${one} as a cosine first.`,
      );
    case "degreesAsRadians":
      return words(
        "take degrees for radians",
        "In which unit is the angle?",
        "180° are π radians.",
        "Convert the angle to degrees.",
      );
    case "capacitorsLikeResistors":
      return words(
        `combine ${all} as if they were resistors`,
        `Is the capacitance of ${all} together larger or smaller than each?`,
        "Capacitances in parallel add; in series their reciprocals do.",
        "Use the other rule.",
      );
    case "reactiveSwapped":
      return words(
        "take capacitors for shorts or inductors for opens",
        "What flows in a capacitor whose voltage does not change?",
        "In the steady state of constant sources a capacitor is an open and an inductor a short.",
        "Exchange the two.",
      );
    case "prefixSlip":
      return words(
        "slip in a prefix",
        "Estimate the size: what do volts over kilohms give?",
        "V/kΩ = mA; V/MΩ = µA; mA · kΩ = V.",
        "Put the right prefix before the unit.",
      );
    case "inputPrefixSlip":
      return words(
        `read ${one} with another prefix`,
        `Read the value of ${one} again, with its prefix.`,
        "As prefixes, k is a thousand, M a million, m a thousandth.",
        `Put ${one} in with the prefix that is written.`,
      );
    case "seriesPartOfCurrentSource":
      return words(
        `let ${one} change the current of ${other}`,
        `What does ${other} hold constant?`,
        "A part in series with a current source changes the voltage of the source, not its current.",
        `Leave ${one} out here.`,
      );
    case "parallelPartOfVoltageSource":
      return words(
        `let ${one} change the voltage of ${other}`,
        `What does ${other} hold constant?`,
        "A part across a voltage source changes the current of the source, not its voltage.",
        `Leave ${one} out here.`,
      );
    case "partDropped":
      return words(
        `leave ${one} out`,
        "List the resistors of this circuit, and tick those in your working.",
        "Every resistor that carries current counts.",
        `Take ${one} in.`,
      );
    case "falseSeries":
      return words(
        `take ${all} in series`,
        `Does anything else meet at the node between ${listed(parts)}?`,
        "In series means: one current, and nothing else at the node between.",
        "Keep that node, and look for another pair, or write node equations.",
      );
    case "falseParallel":
      return words(
        `take ${all} in parallel`,
        `Name the two nodes at the ends of each of ${all}.`,
        "In parallel means: both nodes in common.",
        "Name the nodes first, then combine.",
      );
    case "lawTermTurned":
      return words(
        `take the current in ${one} the wrong way at node ${node}`,
        `Look at the current law at node ${node}.`,
        "In one equation all currents are counted the same way: all leaving, or all entering.",
        `Turn the sign of the term of ${one}.`,
      );
    case "lawTermMissing":
      return words(
        `leave ${one} out at node ${node}`,
        `How many branches meet at node ${node}, and how many terms has its equation?`,
        "The current law counts every branch at the node.",
        `Add the term of ${one}.`,
      );
    case "neighbourMissing":
      return words(
        `write the voltage of node ${node} alone across ${one}`,
        `Between which two nodes does ${one} stand?`,
        "The current in a resistor follows from the difference of the voltages at its ends.",
        `Take the voltage at the other end of ${one} away.`,
      );
    case "sourceCurrentMissing":
      return words(
        `leave the current of ${one} out at node ${node}`,
        `How many branches meet at node ${node}, and how many terms has its equation?`,
        "A voltage source holds a voltage; its current is whatever the circuit asks of it, and is rarely 0.",
        `Give the current of ${one} a name, and count it at node ${node}; or write one equation for both its nodes together.`,
      );
    case "loopTermTurned":
      return words(
        `take the voltage across ${one} the wrong way in a voltage law`,
        `Look at the voltage laws of the loops that ${one} lies on.`,
        "On one way around a loop every drop counts as plus and every rise as minus.",
        `Turn the sign of the term of ${one} in one of these equations.`,
      );
    case "loopTermMissing":
      return words(
        `leave ${one} out of a voltage law`,
        `How many parts lie on each loop through ${one}, and how many terms has its equation?`,
        "The voltage law counts every part on the way around.",
        `Add the voltage across ${one}.`,
      );
    case "mutualTermTurned":
      return words(
        `add the two mesh currents in ${one}`,
        `Which way does each mesh current run through ${one}?`,
        "Two mesh currents of one sense run against each other in the part that they share.",
        `In ${one} take the difference of the two mesh currents.`,
      );
    case "mutualTermMissing":
      return words(
        `count only one mesh current in ${one}`,
        `How many mesh currents run through ${one}?`,
        "A part between two meshes carries the difference of both currents.",
        `Take the other mesh’s current into the term of ${one}.`,
      );
    case "sourceVoltageMissing":
      return words(
        `leave the voltage across ${one} out`,
        `What voltage stands across ${one}?`,
        "A current source holds a current; its voltage is whatever the circuit asks of it, and is rarely 0.",
        `Write the voltage law on a way that does not pass ${one}, around both meshes at once.`,
      );
    case "meshForBranch":
      return words(
        "give the current around a mesh for the current in a branch",
        "How many meshes does this branch belong to?",
        "A branch between two meshes carries the difference of their currents.",
        "Take the other mesh’s current away.",
      );
    default:
      return unreachable(code);
  }
}

function words(deed: string, where: string, principle: string, fix: string): MistakeWords {
  return { deed, where, principle, fix };
}
