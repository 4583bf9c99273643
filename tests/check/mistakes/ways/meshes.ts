import { type Branch, branchOf, isSource } from "./branch";
import { textbook } from "./circuits";
import { real } from "./complexNumber";
import type { Dice } from "./dice";
import { Sketch } from "./sketch";
import { eliminated } from "./solved";

/** A branch as a mesh walks it: 1 from its first node to its second. */
export type Step = { readonly id: string; readonly sign: 1 | -1 };
export type Mesh = readonly Step[];

/** A circuit whose drawing leaves no choice of meshes but that of the outer one, with its meshes. */
export type Meshed = { readonly branches: readonly Branch[]; readonly meshes: readonly Mesh[] };

/** What somebody writes for the voltage of a branch in the law of a mesh. */
export type LoopTerm = "asItIs" | "turned" | "missing" | "otherMeshTurned" | "otherMeshMissing";
export type LoopLaw = (mesh: number, id: string) => LoopTerm;

/** Mesh currents. */
export type MeshCurrents = readonly number[];

/** Two meshes that share a branch, or three around a node, as in a bridge. */
export function meshedCircuit(dice: Dice): Meshed {
  return dice.chance(0.75) ? twoMeshes(dice) : threeMeshes(dice);
}

function twoMeshes(dice: Dice): Meshed {
  const kinds = ["voltage", "current"] as const;
  const { branches, slots } = textbook(dice, { nodes: 1, sources: ["voltage", dice.pick(kinds)] });
  const [left, shared, right] = dice.shuffled(slots).map(({ ids }) => walk(branches, ids, "a"));
  if (!left || !shared || !right) throw new Error("expected three branches between two nodes");
  return {
    branches,
    meshes: [
      [...back(left), ...shared],
      [...back(shared), ...right],
    ],
  };
}

/** Each pair of four nodes has one branch between them; the node c is in the middle. */
function threeMeshes(dice: Dice): Meshed {
  const sketch = new Sketch(dice);
  const pairs = ["0 a", "a b", "b 0", "0 c", "a c", "b c"].map((pair) => pair.split(" ") as [string, string]);
  const kinds = dice.shuffled([
    "voltage",
    dice.pick(["voltage", "current"]),
    "resistor",
    "resistor",
    "resistor",
    "resistor",
  ]);
  const ids = new Map(
    pairs.map(([from, to], k): [string, readonly string[]] => {
      if (kinds[k] === "resistor") return [from + to, [sketch.resistor(from, to)]];
      if (kinds[k] === "current") return [from + to, [sketch.currentSource(from, to)]];
      const middle = sketch.innerNode();
      return [from + to, [sketch.resistor(from, middle), sketch.voltageSource(middle, to)]];
    }),
  );
  const { branches } = sketch;
  const along = (from: string, to: string): Mesh => {
    const straight = ids.get(from + to);
    return straight ? walk(branches, straight, from) : back(walk(branches, ids.get(to + from) ?? [], to));
  };
  const around = (nodes: readonly string[]): Mesh =>
    nodes.flatMap((node, k) => along(node, nodes[(k + 1) % nodes.length] ?? node));
  return { branches, meshes: [around(["0", "a", "c"]), around(["a", "b", "c"]), around(["b", "0", "c"])] };
}

/** The branches of a row from one of its ends on. */
function walk(branches: readonly Branch[], ids: readonly string[], start: string): Mesh {
  const left = ids.map((id) => branchOf(branches, id));
  const steps: Step[] = [];
  for (let node = start; left.length > 0; ) {
    const k = left.findIndex(({ from, to }) => from === node || to === node);
    const [next] = left.splice(k, 1);
    if (k < 0 || next === undefined) throw new Error(`no row from ${start}`);
    steps.push({ id: next.id, sign: next.from === node ? 1 : -1 });
    node = next.from === node ? next.to : next.from;
  }
  return steps;
}

const back = (mesh: Mesh): Mesh => [...mesh].reverse().map(({ id, sign }) => ({ id, sign: sign === 1 ? -1 : 1 }));

/** The meshes that walk a branch. */
export function walksOf({ meshes }: Meshed, id: string): readonly { readonly mesh: number; readonly sign: 1 | -1 }[] {
  return meshes.flatMap((steps, mesh) => steps.filter((step) => step.id === id).map(({ sign }) => ({ mesh, sign })));
}

/**
 * Mesh currents with some sources on: a law for each mesh, with the voltages of current sources as unknowns, and what
 * each current source fixes. Null where they have no single solution.
 */
export function meshCurrents(
  meshed: Meshed,
  on: readonly string[],
  law: LoopLaw = () => "asItIs",
): MeshCurrents | null {
  const { branches, meshes } = meshed;
  const fixing = branches.filter((branch) => branch.law.kind === "current-source").map(({ id }) => id);
  const size = meshes.length + fixing.length;
  const rows = meshes.map((steps, mesh) => {
    const row = new Array<number>(size + 1).fill(0);
    for (const { id, sign } of steps)
      addTerm(row, meshed, fixing, { id, sign, mesh, isOn: on.includes(id) }, law(mesh, id));
    return row;
  });
  for (const id of fixing) {
    const row = new Array<number>(size + 1).fill(0);
    for (const { mesh, sign } of walksOf(meshed, id)) row[mesh] = sign;
    row[size] = on.includes(id) ? sourceValue(branches, id) : 0;
    rows.push(row);
  }
  return eliminated(rows.map((row) => row.map(real)))?.map(({ re }) => re) ?? null;
}

function sourceValue(branches: readonly Branch[], id: string): number {
  const { law } = branchOf(branches, id);
  return law.kind === "voltage-source" || law.kind === "current-source" ? law.wave.peak : 0;
}

type Place = { readonly id: string; readonly sign: 1 | -1; readonly mesh: number; readonly isOn: boolean };

/** Adds the voltage of a branch, as it is written, to the law of a mesh; the last column is the right-hand side. */
function addTerm(row: number[], meshed: Meshed, fixing: readonly string[], place: Place, term: LoopTerm): void {
  const { id, sign, mesh, isOn } = place;
  const times = term === "missing" ? 0 : term === "turned" ? -sign : sign;
  const { law } = branchOf(meshed.branches, id);
  const add = (column: number, value: number): void => {
    row[column] = (row[column] ?? 0) + value;
  };
  if (law.kind === "voltage-source") add(row.length - 1, isOn ? -times * law.wave.peak : 0);
  if (law.kind === "current-source") add(meshed.meshes.length + fixing.indexOf(id), times);
  if (law.kind !== "resistor") return;
  const ofOthers = term === "otherMeshTurned" ? -1 : term === "otherMeshMissing" ? 0 : 1;
  for (const walk of walksOf(meshed, id)) {
    add(walk.mesh, times * walk.sign * law.ohms * (walk.mesh === mesh ? 1 : ofOthers));
  }
}

export const isCurrentSource = (branches: readonly Branch[], id: string): boolean =>
  branchOf(branches, id).law.kind === "current-source";

export const partsOf = (branches: readonly Branch[], mesh: Mesh, off: readonly string[]): readonly string[] =>
  mesh.map(({ id }) => id).filter((id) => !(isSource(branchOf(branches, id)) && off.includes(id)));
