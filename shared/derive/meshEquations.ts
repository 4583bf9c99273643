import { listed } from "../circuit/problemText";
import { unreachable } from "../quantity";
import type { BranchIndex, Law, NodeIndex, Pair } from "../solve/network";
import { nodeSets } from "../solve/nodeSets";
import { type Face, facesOfBlocks, longestFace } from "../solve/planarFaces";
import { branchIndex, type Linear, nodeIndex } from "../solve/superposition";
import { type Acting, branchOf, endsOf, joinedName } from "./acting";
import { type Controls, controlsOf, writeControls } from "./controls";
import { type Expr, known, negative, type QuantityExpr, type SignedTerm, sumOf, times, unknown } from "./expression";
import type { Found } from "./nodeEquations";
import { substituted } from "./nodeEquations";
import type { Balance, Notebook } from "./notebook";
import { branchLabel, impedanceOf, sourceValueOf } from "./quantities";
import { solveFor } from "./solveFor";

/** Why a circuit has no mesh equations. */
export type NoMeshes = "not planar" | "op amp" | "transformer" | "no meshes" | "no way" | "loop of one";

/** Mesh equations not yet written. */
export type MeshEquations<T> = {
  readonly unknowns: number;
  /** Lines down to what is wanted, about. */
  readonly lines: number;
  write(notebook: Notebook<T>): Found<T> | null;
};

/**
 * Mesh analysis: a current around each inner face of a plane drawing. Meshes on a source's edge have their current by
 * it; meshes with a current source between them share one voltage equation, around both (a supermesh).
 */
export function meshEquations<T>(acting: Acting<T>, linear: Linear): MeshEquations<T> | NoMeshes {
  const kinds = acting.live.map((i) => acting.laws[i]?.kind);
  if (kinds.includes("opAmp")) return "op amp";
  if (kinds.includes("primary")) return "transformer";
  const faces = innerFaces(acting);
  if (faces === null) return "not planar";
  if (faces.length === 0) return "no meshes";
  const walked = new Set(faces.flatMap((face) => face.map(({ edge }) => edge)));
  const isOff = (i: BranchIndex): boolean => {
    const { plus, minus } = endsOf(acting, i);
    return fixesCurrent(acting.laws[i] as Law<T>) && plus !== minus && !walked.has(i);
  };
  if (acting.live.some(isOff)) return "no meshes";
  if (followsLoop(acting, linear)) return "loop of one";
  if (!followedPairs(acting, linear).every(({ plus, minus }) => hasWay(acting, plus, minus))) return "no way";
  const setup = new MeshSetup(acting, faces);
  const { size } = setup.unknowns;
  return { unknowns: size, lines: size === 0 ? 2 : size + 3, write: (notebook) => setup.write(notebook) };
}

/** All faces but the outer of each block: that with most edges, or it would be walked around for nothing. */
function innerFaces<T>(acting: Acting<T>): readonly Face[] | null {
  const edges = acting.live.map((i) => {
    const { plus, minus } = endsOf(acting, i);
    return { edge: i, from: plus, to: minus };
  });
  const blocks = facesOfBlocks(edges.filter(({ from, to }) => from !== to));
  if (blocks === null) return null;
  return blocks.flatMap((faces) => {
    const outer = longestFace(faces);
    return faces.filter((face) => face !== outer);
  });
}

/** Whether what is asked for, or followed, is the current of a voltage that has both ends at one node. */
function followsLoop<T>(acting: Acting<T>, linear: Linear): boolean {
  const asked = linear.kind === "current" ? [branchIndex(acting.set.network, linear.through, linear.winding)] : [];
  const followed = acting.live.flatMap((i) => {
    const law = acting.laws[i] as Law<T>;
    return law.kind === "ccvs" || law.kind === "cccs" ? [law.control] : [];
  });
  return [...asked, ...followed].some((i) => {
    const { plus, minus } = endsOf(acting, i);
    const kind = acting.laws[i]?.kind;
    return plus === minus && (kind === "voltage" || kind === "vcvs" || kind === "ccvs");
  });
}

/** Pairs of nodes whose voltage is asked for: what is wanted, and what sources follow. */
function followedPairs<T>(acting: Acting<T>, linear: Linear): readonly Pair[] {
  const { network } = acting.set;
  const wanted =
    linear.kind === "voltage" ? [{ plus: nodeIndex(network, linear.from), minus: nodeIndex(network, linear.to) }] : [];
  const followed = acting.live.flatMap((i) => {
    const law = acting.laws[i] as Law<T>;
    return law.kind === "vcvs" || law.kind === "vccs" ? [law.control] : [];
  });
  return [...wanted, ...followed];
}

/** Whether branches whose voltage follows from mesh currents lead from one node to another. */
function hasWay<T>(acting: Acting<T>, from: NodeIndex, to: NodeIndex): boolean {
  const sets = nodeSets(acting.set.network.nodes.length);
  for (const i of acting.live) {
    const { plus, minus } = endsOf(acting, i);
    if (!fixesCurrent(acting.laws[i] as Law<T>)) sets.join(plus, minus);
  }
  return sets.find(acting.joined(from)) === sets.find(acting.joined(to));
}

const OUTER = 0;

class MeshSetup<T> {
  readonly unknowns = new Map<string, QuantityExpr<T>>();
  private readonly acting: Acting<T>;
  private readonly faces: readonly Face[];
  /** Current around each mesh, 1 and up; around the outside there is none. */
  private readonly currents: (Expr<T> | null)[];
  private readonly known: boolean[];
  /** Meshes that walk a branch forward and backward. */
  private readonly sides = new Map<BranchIndex, { forward: number; backward: number }>();
  private readonly settled = new Set<BranchIndex>();
  private readonly values: readonly T[];
  private readonly controls: Controls<T>;
  private readonly held: { readonly mesh: number; readonly by: BranchIndex }[] = [];

  constructor(acting: Acting<T>, faces: readonly Face[]) {
    this.acting = acting;
    this.faces = faces;
    for (const i of acting.live) this.sides.set(i, { forward: OUTER, backward: OUTER });
    faces.forEach((face, place) => {
      for (const { edge, direction } of face) {
        const sides = this.sides.get(edge);
        if (sides === undefined) continue;
        if (direction === 1) sides.forward = place + 1;
        else sides.backward = place + 1;
      }
    });
    this.values = this.solvedMeshCurrents();
    this.currents = [null, ...faces.map(() => null)];
    this.known = [true, ...faces.map(() => false)];
    this.holdBySources();
    for (let mesh = 1; mesh <= faces.length; mesh++) {
      if (this.known[mesh]) continue;
      const key = `M ${mesh}`;
      const quantity = unknown(key, meshName(mesh), this.values[mesh] as T, "A");
      this.unknowns.set(key, quantity);
      this.currents[mesh] = quantity;
    }
    this.controls = controlsOf(acting, this.found(), this.unknowns);
  }

  /** Mesh currents from the solver's branch currents, from the outside inwards. */
  private solvedMeshCurrents(): T[] {
    const { acting } = this;
    const { add, negate, zero } = acting.set.arithmetic;
    const values: (T | null)[] = [zero, ...this.faces.map(() => null)];
    for (let grew = true; grew; ) {
      grew = false;
      for (const [i, { forward, backward }] of this.sides) {
        if (this.isShorted(i)) continue;
        const [a, b] = [values[forward] ?? null, values[backward] ?? null];
        if ((a === null) === (b === null)) continue;
        const current = acting.response.branchCurrent(i);
        if (b !== null) values[forward] = add(b, current);
        else if (a !== null) values[backward] = add(a, negate(current));
        grew = true;
      }
    }
    return values.map((value) => value ?? zero);
  }

  /** Meshes whose current independent sources fix, from the outside inwards. */
  private holdBySources(): void {
    const { acting } = this;
    for (let grew = true; grew; ) {
      grew = false;
      for (const [i, { forward, backward }] of this.sides) {
        if (acting.laws[i]?.kind !== "current" || this.isShorted(i) || this.known[forward] === this.known[backward])
          continue;
        const value = sourceValueOf(acting, i);
        const [mesh, from, sign] = this.known[backward]
          ? ([forward, backward, 1] as const)
          : ([backward, forward, -1] as const);
        const base = this.currents[from] ?? null;
        const turned = sign === 1 ? value : negative(value);
        this.currents[mesh] =
          base === null
            ? turned
            : sumOf([
                { sign: 1, of: base },
                { sign, of: value },
              ]);
        this.known[mesh] = true;
        this.settled.add(i);
        this.held.push({ mesh, by: i });
        grew = true;
      }
    }
  }

  private through(i: BranchIndex): Expr<T> | null {
    const sides = this.sides.get(i);
    if (sides === undefined) return this.zero("A");
    // A branch whose ends are shorted is on no mesh; its law alone says what it carries.
    if (this.isShorted(i)) return this.byLaw(i);
    const [forward, backward] = [this.currents[sides.forward] ?? null, this.currents[sides.backward] ?? null];
    const terms: SignedTerm<T>[] = [];
    if (forward !== null) terms.push({ sign: 1, of: forward });
    if (backward !== null) terms.push({ sign: -1, of: backward });
    return terms.length === 0 ? this.zero("A") : sumOf(terms);
  }

  private isShorted(i: BranchIndex): boolean {
    const { plus, minus } = endsOf(this.acting, i);
    return plus === minus;
  }

  private byLaw(i: BranchIndex): Expr<T> {
    const law = this.acting.laws[i] as Law<T>;
    return law.kind === "current" ? sourceValueOf(this.acting, i) : this.controls.product(i);
  }

  private zero(unit: "A" | "V"): Expr<T> {
    return known(null, this.acting.set.arithmetic.zero, unit);
  }

  private found(): Found<T> {
    return {
      nodeVoltage: (node) => this.between(node, this.acting.set.network.reference),
      between: (from, to) => this.between(from, to),
      branchCurrent: (i) =>
        this.acting.laws[i]?.kind === "short" && !this.acting.held.has(i) ? null : this.through(i),
      isWanted: false,
    };
  }

  /** Voltage along the shortest path of branches whose voltage is known from the mesh currents. */
  private between(from: NodeIndex, to: NodeIndex): Expr<T> | null {
    const { acting } = this;
    const [start, end] = [acting.joined(from), acting.joined(to)];
    const arrival = new Map<NodeIndex, { readonly branch: BranchIndex; readonly before: NodeIndex } | null>([
      [start, null],
    ]);
    const queue = [start];
    for (let at = queue.shift(); at !== undefined && at !== end; at = queue.shift()) {
      for (const i of acting.live) {
        const { plus, minus } = endsOf(acting, i);
        if (fixesCurrent(acting.laws[i] as Law<T>) || (plus !== at && minus !== at)) continue;
        const other = plus === at ? minus : plus;
        if (arrival.has(other)) continue;
        arrival.set(other, { branch: i, before: at });
        queue.push(other);
      }
    }
    const terms: SignedTerm<T>[] = [];
    for (let step = arrival.get(end); step; step = arrival.get(step.before)) {
      const sign = endsOf(acting, step.branch).plus === step.before ? 1 : -1;
      terms.unshift(...this.drop(step.branch, sign));
    }
    return terms.length === 0 ? null : sumOf(terms);
  }

  /** Voltage along a branch as terms; `sign` is 1 from plus to minus. */
  private drop(i: BranchIndex, sign: 1 | -1): SignedTerm<T>[] {
    const { acting } = this;
    const law = acting.laws[i] as Law<T>;
    switch (law.kind) {
      case "admittance": {
        const current = this.through(i) as Expr<T>;
        const turned = sign === 1 ? current : sumOf([{ sign: -1, of: current }]);
        return [{ sign: 1, of: times(impedanceOf(acting, i), positiveFirst(turned)) }];
      }
      case "voltage":
        return [{ sign, of: sourceValueOf(acting, i) }];
      case "vcvs":
      case "ccvs":
        return [{ sign, of: this.controls.product(i) }];
      case "short":
        return [];
      case "open":
      case "current":
      case "vccs":
      case "cccs":
      case "opAmp":
      case "primary":
      case "secondary":
        throw new Error(`drop: ${branchOf(acting, i).part} has no voltage of its own`);
      default:
        return unreachable(law);
    }
  }

  write(notebook: Notebook<T>): Found<T> | null {
    this.writeUnknowns(notebook);
    writeControls(this.acting, this.controls, notebook, new Map());
    const equations = [...this.voltageLaws(), ...this.constraints()];
    for (const { rule, sentence, parts, ...balance } of equations) {
      notebook.balance({ rule, sentence, parts }, [balance]);
    }
    const solved = solveFor(this.unknowns, [...this.controls.balances, ...equations], notebook);
    if (solved === null) return null;
    const put = (expr: Expr<T> | null): Expr<T> | null => (expr === null ? null : substituted(expr, solved));
    const found = this.found();
    return {
      nodeVoltage: (node) => put(found.nodeVoltage(node)),
      between: (from, to) => put(this.between(from, to)),
      branchCurrent: (i) => put(found.branchCurrent(i)),
      isWanted: false,
    };
  }

  private writeUnknowns(notebook: Notebook<T>): void {
    const { acting } = this;
    const described = this.faces.map((face, place) => {
      const names = face.map(({ edge }) => branchLabel(acting, edge));
      return `${meshName(place + 1).text} from ${joinedName(acting, face[0]?.start ?? 0)} along ${listed(names)}`;
    });
    const parts = this.faces.flatMap((face) => face.map(({ edge }) => branchOf(acting, edge).part));
    notebook.balance(
      { rule: { kind: "mesh-currents" }, sentence: `Mesh currents: ${described.join("; ")}.`, parts },
      this.held.map(({ mesh }) => ({
        left: unknown(`held ${mesh}`, meshName(mesh), this.values[mesh] as T, "A"),
        right: this.currents[mesh] ?? this.zero("A"),
        unit: "A" as const,
      })),
    );
  }

  private voltageLaws(): PlannedMesh<T>[] {
    const { acting } = this;
    const sets = nodeSets(this.faces.length + 1);
    for (const [i, { forward, backward }] of this.sides) {
      if (fixesCurrent(acting.laws[i] as Law<T>)) sets.join(forward, backward);
    }
    const groups = new Map<number, number[]>();
    for (let mesh = 1; mesh <= this.faces.length; mesh++) {
      const root = sets.find(mesh);
      if (root !== OUTER) groups.set(root, [...(groups.get(root) ?? []), mesh]);
    }
    return [...groups.values()].map((meshes) => this.voltageLaw(meshes));
  }

  private voltageLaw(meshes: readonly number[]): PlannedMesh<T> {
    const { acting } = this;
    const terms: SignedTerm<T>[] = [];
    const parts: string[] = [];
    for (const mesh of meshes) {
      for (const { edge, direction } of this.faces[mesh - 1] as Face) {
        if (fixesCurrent(acting.laws[edge] as Law<T>) || this.isInside(edge, meshes)) continue;
        terms.push(...this.drop(edge, direction));
        parts.push(branchOf(acting, edge).part);
      }
    }
    const names = meshes.map((mesh) => meshName(mesh).text);
    const isSupermesh = meshes.length > 1;
    return {
      left: terms.length === 0 ? this.zero("V") : sumOf(terms),
      right: this.zero("V"),
      unit: "V",
      rule: { kind: "mesh-equation", isSupermesh },
      sentence: isSupermesh
        ? `Kirchhoff's voltage law around the supermesh of ${listed(names)}, past the current ${meshes.length > 2 ? "sources" : "source"} between them.`
        : `Kirchhoff's voltage law around the mesh of ${names[0]}.`,
      parts,
    };
  }

  /** Whether a branch lies between two meshes of a supermesh, so that its voltage would count both ways. */
  private isInside(i: BranchIndex, meshes: readonly number[]): boolean {
    const sides = this.sides.get(i);
    return sides !== undefined && meshes.includes(sides.forward) && meshes.includes(sides.backward);
  }

  private constraints(): PlannedMesh<T>[] {
    const { acting } = this;
    return acting.live.flatMap((i): PlannedMesh<T>[] => {
      const law = acting.laws[i] as Law<T>;
      if (!fixesCurrent(law) || this.settled.has(i) || this.isShorted(i)) return [];
      const { part } = branchOf(acting, i);
      const right = this.byLaw(i);
      const sentence = `${part} fixes the current on its branch.`;
      return [
        { left: this.through(i) as Expr<T>, right, unit: "A", rule: { kind: "constraint" }, sentence, parts: [part] },
      ];
    });
  }
}

type PlannedMesh<T> = Balance<T> & {
  readonly rule: { readonly kind: "mesh-equation"; readonly isSupermesh: boolean } | { readonly kind: "constraint" };
  readonly sentence: string;
  readonly parts: readonly string[];
};

function meshName(mesh: number): { readonly text: string; readonly latex: string } {
  return { text: `i${mesh}`, latex: `i_{${mesh}}` };
}

function fixesCurrent<T>({ kind }: Law<T>): boolean {
  return kind === "current" || kind === "vccs" || kind === "cccs";
}

/** A sum that begins with a term that counts positive where it has one. */
function positiveFirst<T>(expr: Expr<T>): Expr<T> {
  return expr.kind === "sum" ? { ...expr, terms: [...expr.terms].sort((a, b) => b.sign - a.sign) } : expr;
}
