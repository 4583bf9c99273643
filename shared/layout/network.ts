import { type Circuit, type IdealOpAmp, type IdealTransformer, type NodeId, type Part, terminalsOf } from "../circuit";
import { Partition } from "./partition";

/** A node by its number in a network: 0, 1, 2, … in the order in which the parts name them. */
export type Net = number;

export type LinePart = Exclude<Part, BlockPart>;
export type BlockPart = IdealOpAmp | IdealTransformer;

/** A part with two terminals between two nets, `plus` first. */
export type Link = { readonly part: LinePart; readonly plus: Net; readonly minus: Net };
/** An op amp or a transformer with the nets of its terminals, in the order in which a file lists them. */
export type Block = { readonly part: BlockPart; readonly pins: readonly Net[] };

/**
 * A circuit made ready for layout: nodes are numbers, parts are sorted by their names, and each section that no part
 * joins galvanically to the rest has one net chosen for the bottom rail, the reference node where it has that.
 */
export type Network = {
  readonly nets: readonly NodeId[];
  readonly links: readonly Link[];
  readonly blocks: readonly Block[];
  readonly reference: Net | null;
  readonly isBottom: readonly boolean[];
};

/** Sorting by name makes a layout independent of the order of the parts, numbering that of the names of nodes. */
export function networkOf(circuit: Circuit): Network {
  const parts = [...circuit.parts].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  const numbers = new Map<NodeId, Net>();
  const netOf = (node: NodeId): Net => {
    const net = numbers.get(node) ?? numbers.size;
    numbers.set(node, net);
    return net;
  };
  const links: Link[] = [];
  const blocks: Block[] = [];
  for (const part of parts) {
    const pins = terminalsOf(part).map(({ node }) => netOf(node));
    if (isBlock(part)) blocks.push({ part, pins });
    else links.push({ part, plus: pins[0] as Net, minus: pins[1] as Net });
  }
  const reference = circuit.reference === null ? null : (numbers.get(circuit.reference) ?? null);
  const isBottom = bottoms(numbers.size, links, blocks, reference);
  return { nets: [...numbers.keys()], links, blocks, reference, isBottom };
}

function isBlock(part: Part): part is BlockPart {
  return part.kind === "ideal-opamp" || part.kind === "ideal-transformer";
}

/** One net of each section: the reference, else the one with most parts, the minus of sources before others. */
function bottoms(count: number, links: readonly Link[], blocks: readonly Block[], reference: Net | null): boolean[] {
  const sections = new Partition(count);
  const weight = new Array<number>(count).fill(0);
  const add = (net: Net, more: number) => {
    weight[net] = (weight[net] ?? 0) + more;
  };
  for (const { part, plus, minus } of links) {
    sections.join(plus, minus);
    add(plus, 1);
    add(minus, part.kind === "voltage-source" ? 1.5 : 1);
  }
  for (const { part, pins } of blocks) {
    const pairs = part.kind === "ideal-opamp" ? [pins] : [pins.slice(0, 2), pins.slice(2)];
    for (const pair of pairs) for (const pin of pair) sections.join(pin, pair[0] as Net);
    // The second end of a winding is the usual place for a rail.
    if (part.kind === "ideal-transformer") for (const pin of [1, 3]) add(pins[pin] as Net, 1);
  }
  if (reference !== null) add(reference, Number.POSITIVE_INFINITY);
  const best = new Map<number, Net>();
  for (let net = 0; net < count; net += 1) {
    const section = sections.find(net);
    const rival = best.get(section);
    if (rival === undefined || (weight[net] ?? 0) > (weight[rival] ?? 0)) best.set(section, net);
  }
  const chosen = new Set(best.values());
  return weight.map((_, net) => chosen.has(net));
}
