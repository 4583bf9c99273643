import type { Drawing, PartId } from "../circuit";
import { type Chain, chainsOf, stackableChains } from "./chains";
import { drawn } from "./draw";
import { measureOf } from "./measure";
import type { Net, Network } from "./network";
import { orderOf } from "./order";
import { type Choice, planOf } from "./plan";

/** What a trial may change: hang a chain, raise a net, or turn an op amp's inputs round. */
type Change =
  | { readonly kind: "stacked" | "lifted"; readonly name: string }
  | { readonly kind: "raised"; readonly net: Net };

/** Parts above which fewer choices are tried, so that a large circuit takes no longer than a second or so. */
const MANY_PARTS = 40;
const MOST_TRIALS = 120;

/**
 * The best drawing that a bounded number of trials finds: from chains laid along the rail, nothing raised and in− on
 * the rail, one choice after another is changed as long as that makes the drawing easier to read.
 */
export function bestDrawing(network: Network, parts: readonly PartId[], wanted: ReadonlySet<PartId>): Drawing {
  const draw = (choice: Choice) => {
    const plan = planOf(network, choice);
    const drawing = drawn(network, plan, orderOf(plan, wanted), parts, wanted);
    return { choice, drawing, cost: costOf(drawing, choice) };
  };
  let best = draw(NOTHING_CHOSEN);
  const chains = chainsOf(network, () => true);
  const changes = changesOf(network, chains);
  let trials = parts.length > MANY_PARTS ? Math.floor((MOST_TRIALS * MANY_PARTS ** 2) / parts.length ** 2 / 4) : MOST_TRIALS;
  for (let isBetter = true; isBetter; ) {
    isBetter = false;
    for (const change of changes) {
      const choice = changed(best.choice, change, chains);
      if (choice === null) continue;
      if (trials === 0) return best.drawing;
      trials -= 1;
      const trial = draw(choice);
      if (trial.cost >= best.cost - 1e-9) continue;
      best = trial;
      isBetter = true;
    }
  }
  return best.drawing;
}

const NOTHING_CHOSEN: Choice = { stacked: new Set(), raised: new Set(), lifted: new Set() };

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

const CROSSING = 9;
const BEND = 1.6;
const RAISED = 4;
const LIFTED = 1;

function costOf(drawing: Drawing, { raised, lifted }: Choice): number {
  const { crossings, bends, wireLength, width, height } = measureOf(drawing);
  const size = 0.25 * width + 0.6 * height + 0.06 * wireLength;
  return CROSSING * crossings + BEND * bends + size + RAISED * raised.size + LIFTED * lifted.size;
}
