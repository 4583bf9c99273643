import type { Drawing, PartId } from "../circuit";
import { type Chain, chainsOf, stackableChains } from "./chains";
import { drawn } from "./draw";
import type { Marks } from "./marks";
import { measureOf } from "./measure";
import type { Net, Network } from "./network";
import { orderOf } from "./order";
import { type Choice, planOf } from "./plan";

/** What a trial may change: hang a chain, raise a net, or turn an op amp's inputs round. */
type Change =
  | { readonly kind: "stacked" | "lifted"; readonly name: string }
  | { readonly kind: "raised"; readonly net: Net };

/** Most trials for a small circuit. Each takes longer in a larger one, which therefore gets fewer, or none. */
const MOST_TRIALS = 120;
const TRIALS_OF_12_PARTS = 180;
/** What {@link orderOf} may take for one of several trials, and for the only one. */
const EFFORT = 800_000;
const EFFORT_AT_ONCE = 20_000_000;

type Trial = { readonly choice: Choice; readonly drawing: Drawing; readonly cost: number };

/**
 * The best drawing that a bounded number of trials finds: from chains laid along the rail and nothing raised, one
 * choice after another is changed as long as that makes the drawing easier to read. Where there are op amps that is
 * done twice, from in− on the rail and from in+.
 */
export function bestDrawing(network: Network, parts: readonly PartId[], marks: Marks): Drawing {
  const drawnWith = (choice: Choice, effort: number) => {
    const plan = planOf(network, choice);
    return drawn(network, plan, orderOf(plan, marks, effort), parts, marks);
  };
  const draw = (choice: Choice): Trial => {
    const { drawing, arcs } = drawnWith(choice, EFFORT);
    return { choice, drawing, cost: costOf(drawing, choice) + ARC * arcs };
  };
  const trials = Math.min(MOST_TRIALS, Math.floor(TRIALS_OF_12_PARTS / (1 + (parts.length / 12) ** 2)));
  if (trials === 0) return drawnWith(NOTHING_CHOSEN, EFFORT_AT_ONCE).drawing;
  const first = climbed(draw(NOTHING_CHOSEN), network, trials, draw);
  const amplifiers = network.blocks.filter(({ part }) => part.kind === "ideal-opamp").map(({ part }) => part.id);
  if (amplifiers.length === 0) return first.drawing;
  const second = climbed(draw({ ...NOTHING_CHOSEN, lifted: new Set(amplifiers) }), network, trials, draw);
  return second.cost < first.cost - 1e-9 ? second.drawing : first.drawing;
}

const NOTHING_CHOSEN: Choice = { stacked: new Set(), raised: new Set(), lifted: new Set() };

function climbed(start: Trial, network: Network, trials: number, draw: (choice: Choice) => Trial): Trial {
  const chains = chainsOf(network, () => true);
  const changes = changesOf(network, chains);
  let [best, left] = [start, trials];
  for (let isBetter = true; isBetter; ) {
    isBetter = false;
    for (const change of changes) {
      const choice = changed(best.choice, change, chains);
      if (choice === null) continue;
      if (left === 0) return best;
      left -= 1;
      const trial = draw(choice);
      if (trial.cost >= best.cost - 1e-9) continue;
      best = trial;
      isBetter = true;
    }
  }
  return best;
}

function changesOf(network: Network, chains: readonly Chain[]): readonly Change[] {
  const hasPin = new Set(network.blocks.flatMap(({ pins }) => pins));
  const meeting = network.nets.map(() => 0);
  for (const { from, to } of chains) for (const net of [from, to]) meeting[net] = (meeting[net] ?? 0) + 1;
  const isRaisable = (net: Net) => (meeting[net] ?? 0) > 2 && !network.isBottom[net] && !hasPin.has(net);
  return [
    ...stackableChains(network).map((name): Change => ({ kind: "stacked", name })),
    ...network.blocks.flatMap(({ part }): readonly Change[] =>
      part.kind === "ideal-opamp" ? [{ kind: "lifted", name: part.id }] : [],
    ),
    ...[...meeting.keys()].filter(isRaisable).map((net): Change => ({ kind: "raised", net })),
  ];
}

/** The choice with one thing turned over, null where that cannot be drawn: raised nets must not be neighbours. */
function changed(choice: Choice, change: Change, chains: readonly Chain[]): Choice | null {
  if (change.kind !== "raised") return { ...choice, [change.kind]: toggled(choice[change.kind], change.name) };
  const raised = toggled(choice.raised, change.net);
  if (chains.some(({ from, to }) => raised.has(from) && raised.has(to))) return null;
  return { ...choice, raised };
}

function toggled<T>(set: ReadonlySet<T>, member: T): ReadonlySet<T> {
  const next = new Set(set);
  if (!next.delete(member)) next.add(member);
  return next;
}

const CROSSING = 13;
const BEND = 1.6;
const RAISED = 4;
const LIFTED = 4;
const ARC = 2;

function costOf(drawing: Drawing, { raised, lifted }: Choice): number {
  const { crossings, bends, wireLength, width, height } = measureOf(drawing);
  const size = 0.25 * width + 0.6 * height + 0.06 * wireLength;
  return CROSSING * crossings + BEND * bends + size + RAISED * raised.size + LIFTED * lifted.size;
}
