import type { Circuit, NodeId, Part, PartId, Wanted } from "../../circuit";
import { add, isZero, multiply, negate, ONE, type Rational, ZERO } from "../../quantity";
import { type Face, facesOfBlocks, longestFace } from "../../solve/planarFaces";

/** Σ coefficient · unknown + constant. */
export type Form = { readonly terms: ReadonlyMap<number, Rational>; readonly constant: Rational };

/** A part as a mesh walks it: 1 from its plus to its minus terminal. */
export type MeshStep = { readonly part: Branch; readonly direction: 1 | -1 };

/**
 * Mesh equations of a circuit of constants: the unknowns are the currents around the meshes and then the voltages of
 * current sources; `laws` says that each mesh's voltages add up to 0, `others` what the current sources fix.
 */
export type MeshEquations = {
  readonly order: number;
  readonly meshes: readonly (readonly MeshStep[])[];
  readonly laws: readonly Form[];
  readonly others: readonly Form[];
  /** The meshes that walk a part, with the direction in which each does. */
  readonly around: ReadonlyMap<PartId, readonly { readonly mesh: number; readonly direction: 1 | -1 }[]>;
  readonly voltage: (part: Branch) => Form;
  readonly asked: Form;
};

/** The parts that mesh equations are written for here. */
export type Branch = Extract<
  Part,
  { kind: "resistor" | "voltage-source" | "current-source" | "ccvs" | "cccs" | "wire" | "inductor" | "switch" }
>;

/** Beyond so many faces only the longest is taken for the outer one; with fewer, each in turn, since drawings differ. */
const MOST_TURNED = 4;

/**
 * The mesh equations of a plane drawing, for each choice of its outer face. None where there is no such drawing, for op
 * amps, transformers, sources that follow a voltage, and sinusoids.
 */
export function meshEquations(circuit: Circuit, wanted: Wanted): readonly MeshEquations[] {
  const live = liveBranches(circuit);
  if (live === null || (wanted.kind !== "current" && wanted.kind !== "voltage")) return [];
  const places = new Map<NodeId, number>();
  const placeOf = (node: NodeId): number => {
    const place = places.get(node) ?? places.size;
    places.set(node, place);
    return place;
  };
  const edges = live.map(({ plus, minus }, edge) => ({ edge, from: placeOf(plus), to: placeOf(minus) }));
  const blocks = facesOfBlocks(edges);
  if (blocks === null) return [];
  return innerChoices(blocks).flatMap((inner) => {
    const meshes = inner.map((face) =>
      face.map(({ edge, direction }): MeshStep => ({ part: live[edge] as Branch, direction })),
    );
    return written(live, meshes, wanted) ?? [];
  });
}

/** Parts that current can run through; null where one of them is none of those written here. */
function liveBranches({ parts }: Circuit): readonly Branch[] | null {
  const live: Branch[] = [];
  for (const part of parts) {
    if (part.kind === "capacitor" || (part.kind === "switch" && part.state === "open")) continue;
    if (part.kind === "voltage-source" && part.voltage.kind !== "dc") return null;
    if (part.kind === "current-source" && part.current.kind !== "dc") return null;
    if (part.kind === "ideal-opamp" || part.kind === "ideal-transformer") return null;
    if (part.kind === "vcvs" || part.kind === "vccs") return null;
    if (part.plus !== part.minus) live.push(part);
  }
  return live;
}

function innerChoices(blocks: readonly (readonly Face[])[]): readonly (readonly Face[])[] {
  const without = (outer: readonly (Face | undefined)[]): readonly Face[] =>
    blocks.flatMap((faces, i) => faces.filter((face) => face !== outer[i]));
  const usual = blocks.map(longestFace);
  const turned = blocks.flatMap((faces, i) =>
    faces.length > MOST_TURNED ? [] : faces.filter((face) => face !== usual[i]).map((face) => usual.with(i, face)),
  );
  const [first, ...others] = [usual, ...turned].map(without);
  return first === undefined || first.length === 0 ? [] : [first, ...others];
}

const NOTHING: Form = { terms: new Map(), constant: ZERO };

/** a + factor · b. */
export function plus(a: Form, b: Form, factor: Rational): Form {
  const terms = new Map(a.terms);
  for (const [at, value] of b.terms) {
    const sum = add(terms.get(at) ?? ZERO, multiply(value, factor));
    if (isZero(sum)) terms.delete(at);
    else terms.set(at, sum);
  }
  return { terms, constant: add(a.constant, multiply(b.constant, factor)) };
}

function signed(direction: 1 | -1): Rational {
  return direction === 1 ? ONE : negate(ONE);
}

function written(
  live: readonly Branch[],
  meshes: readonly (readonly MeshStep[])[],
  wanted: Extract<Wanted, { kind: "current" | "voltage" }>,
): MeshEquations | null {
  const followed = live.flatMap((part) => (part.kind === "ccvs" || part.kind === "cccs" ? [part.control.part] : []));
  const known = new Set(live.map(({ id }) => id));
  // What is no part of any mesh, such as a source with both ends at one node, has a current that they do not give.
  if (![...followed, ...(wanted.kind === "current" ? [wanted.through] : [])].every((id) => known.has(id))) return null;
  const around = new Map<PartId, { mesh: number; direction: 1 | -1 }[]>();
  meshes.forEach((steps, mesh) => {
    for (const { part, direction } of steps) {
      around.set(part.id, [...(around.get(part.id) ?? []), { mesh, direction }]);
    }
  });
  const fixing = live.filter((part) => part.kind === "current-source" || part.kind === "cccs");
  const ownVoltage = new Map(fixing.map(({ id }, i) => [id, meshes.length + i]));
  const current = (id: PartId): Form => ({
    terms: new Map((around.get(id) ?? []).map(({ mesh, direction }) => [mesh, signed(direction)])),
    constant: ZERO,
  });
  const controlled = ({ control, gain }: Extract<Part, { kind: "ccvs" | "cccs" }>): Form =>
    plus(NOTHING, current(control.part), control.direction === "forward" ? gain : negate(gain));
  const voltage = (part: Branch): Form => {
    switch (part.kind) {
      case "resistor":
        return plus(NOTHING, current(part.id), part.resistance);
      case "voltage-source":
        return { terms: new Map(), constant: part.voltage.kind === "dc" ? part.voltage.value : ZERO };
      case "ccvs":
        return controlled(part);
      case "current-source":
      case "cccs":
        return { terms: new Map([[ownVoltage.get(part.id) as number, ONE]]), constant: ZERO };
      case "wire":
      case "inductor":
      case "switch":
        return NOTHING;
    }
  };
  const asked = wanted.kind === "current" ? askedCurrent(wanted, current) : askedVoltage(live, wanted, voltage);
  if (asked === null) return null;
  return {
    order: meshes.length + fixing.length,
    meshes,
    laws: meshes.map((steps) =>
      steps.reduce((law, { part, direction }) => plus(law, voltage(part), signed(direction)), NOTHING),
    ),
    others: fixing.map((part) => {
      const own = current(part.id);
      if (part.kind === "cccs") return plus(own, controlled(part), negate(ONE));
      const value = part.kind === "current-source" && part.current.kind === "dc" ? part.current.value : ZERO;
      return { ...own, constant: negate(value) };
    }),
    around,
    voltage,
    asked,
  };
}

function askedCurrent(
  { through, direction }: Extract<Wanted, { kind: "current" }>,
  current: (id: PartId) => Form,
): Form {
  return plus(NOTHING, current(through), signed(direction === "forward" ? 1 : -1));
}

/** The voltages along some way from one node to the other. */
function askedVoltage(
  live: readonly Branch[],
  { from, to }: Extract<Wanted, { kind: "voltage" }>,
  voltage: (part: Branch) => Form,
): Form | null {
  const reached = new Map<NodeId, Form>([[from, NOTHING]]);
  const queue: NodeId[] = [from];
  for (let node = queue.shift(); node !== undefined && !reached.has(to); node = queue.shift()) {
    const before = reached.get(node) as Form;
    for (const part of live) {
      if (part.plus !== node && part.minus !== node) continue;
      const [other, direction] = part.plus === node ? [part.minus, 1 as const] : [part.plus, -1 as const];
      if (reached.has(other)) continue;
      reached.set(other, plus(before, voltage(part), signed(direction)));
      queue.push(other);
    }
  }
  return reached.get(to) ?? null;
}
