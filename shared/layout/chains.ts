import type { LinePart, Link, Net, Network } from "./network";

/** One part of a chain; `isForward` where its plus terminal comes first. `after` is the net behind it. */
export type Step = { readonly part: LinePart; readonly isForward: boolean; readonly after: Net };
/** Parts in series from one net to another, with nothing else on the nets between. */
export type Chain = { readonly from: Net; readonly to: Net; readonly steps: readonly Step[] };

/**
 * The network as chains between its main nets: rails, nets with a block's pin, and nets where other than two parts
 * meet. A chain that comes back to where it began is broken up into single parts, and so is a chain down to a bottom
 * net, unless `isStacked` holds for its name.
 */
export function chainsOf(network: Network, isStacked: (name: string) => boolean): readonly Chain[] {
  const isMain = mainNets(network);
  const whole = tracedChains(network, isMain);
  return whole.flatMap((chain) => {
    const isHanging = network.isBottom[chain.from] || network.isBottom[chain.to];
    if (chain.from !== chain.to && (!isHanging || isStacked(chainName(chain)))) return [chain];
    return singleSteps(chain);
  });
}

/** Names of the chains that may be stacked or laid along the rail. */
export function stackableChains(network: Network): readonly string[] {
  return tracedChains(network, mainNets(network))
    .filter(
      ({ from, to, steps }) => from !== to && steps.length > 1 && (network.isBottom[from] || network.isBottom[to]),
    )
    .map(chainName);
}

/** The first of the names of a chain's parts. */
function chainName({ steps }: Chain): string {
  const names = steps.map(({ part }) => part.id).sort();
  return names[0] ?? "";
}

function singleSteps({ from, steps }: Chain): readonly Chain[] {
  return steps.map((step, i) => ({ from: steps[i - 1]?.after ?? from, to: step.after, steps: [step] }));
}

function linksAt(network: Network): readonly (readonly Link[])[] {
  const at: Link[][] = network.nets.map(() => []);
  for (const link of network.links) {
    at[link.plus]?.push(link);
    if (link.minus !== link.plus) at[link.minus]?.push(link);
  }
  return at;
}

function mainNets(network: Network): readonly boolean[] {
  const ends = network.nets.map(() => 0);
  const isMain = [...network.isBottom];
  for (const { plus, minus } of network.links) {
    ends[plus] = (ends[plus] ?? 0) + 1;
    ends[minus] = (ends[minus] ?? 0) + 1;
    if (plus === minus) isMain[plus] = true;
  }
  for (const { pins } of network.blocks) for (const pin of pins) isMain[pin] = true;
  return isMain.map((main, net) => main || ends[net] !== 2);
}

function tracedChains(network: Network, isMain: readonly boolean[]): readonly Chain[] {
  const at = linksAt(network);
  const done = new Set<Link>();
  const chains: Chain[] = [];
  for (const link of network.links) {
    if (done.has(link)) continue;
    const begin = isMain[link.plus] ? link.plus : isMain[link.minus] ? link.minus : null;
    if (begin === null) continue; // reached from one of the chain's ends
    const steps: Step[] = [];
    let [net, next]: [Net, Link | undefined] = [begin, link];
    while (next !== undefined) {
      done.add(next);
      const isForward: boolean = next.plus === net;
      const after: Net = isForward ? next.minus : next.plus;
      steps.push({ part: next.part, isForward, after });
      net = after;
      next = isMain[net] ? undefined : at[net]?.find((other) => !done.has(other));
    }
    chains.push({ from: begin, to: net, steps });
  }
  return chains;
}

/** The steps of a chain that begins at a net, as they come from its other end. */
export function reversedSteps(from: Net, steps: readonly Step[]): readonly Step[] {
  return steps
    .map((step, i) => ({ ...step, isForward: !step.isForward, after: steps[i - 1]?.after ?? from }))
    .reverse();
}
