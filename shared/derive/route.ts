import type { Circuit, PartId } from "../circuit";
import type { SolvedSet } from "../solve";
import type { Linear } from "../solve/superposition";
import { type Acting, actingOn } from "./acting";
import { type Derived, derivedOf } from "./derived";
import { writeLastHop } from "./lastHop";
import { OMITTED, WORKING_LIMIT } from "./limit";
import { type MeshEquations, meshEquations, type NoMeshes } from "./meshEquations";
import type { Name } from "./names";
import { type NodeEquations, nodeEquations } from "./nodeEquations";
import { Notebook } from "./notebook";
import type { Numerals } from "./numerals";
import { writeOpening, writePhasors } from "./opening";
import { rewrittenShortcut } from "./rewrittenShortcut";
import { type Shortcut, shortcutFor } from "./shortcut";

/** One number to derive: what some sources give at DC or at one frequency. */
export type Task<T> = {
  readonly circuit: Circuit;
  readonly set: SolvedSet<T>;
  readonly numerals: Numerals<T>;
  /** Null for all. */
  readonly sources: readonly PartId[] | null;
  readonly linear: Linear;
  readonly name: Name;
};

/** The lines by node equations, which every solved circuit has. */
export function byNodes<T>(
  task: Task<T>,
  acting = actingFor(task),
  equations: NodeEquations<T> = nodeEquations(acting, task),
): Derived {
  if (equations.unknowns > WORKING_LIMIT.unknowns) return OMITTED;
  const notebook = notebookFor(task);
  writeOpening(acting, notebook);
  writePhasors(acting, notebook, admittancesOf(acting));
  const found = equations.write(notebook);
  if (found !== null) writeLastHop(acting, task.linear, task.name, found, notebook);
  return derivedOf(notebook);
}

/**
 * The lines a good instructor would write: shortcuts where they reach, rewritings of the circuit where these take fewer
 * lines than equations, equations elsewhere. Lines that do not agree with the solver are withheld, their faults kept,
 * and node equations stand in for them.
 */
export function byBestRoute<T>(task: Task<T>): Derived {
  const acting = actingFor(task);
  const plain = shortcutFor(acting, task);
  const equations = plain === null ? equationsFor(task, acting) : null;
  const shortcut = plain ?? rewrittenShortcut(acting, task, equations?.lines ?? 0);
  const derived = shortcut === null ? equations?.write() : byShortcut(task, acting, shortcut);
  if (derived === undefined) throw new Error("byBestRoute: there are always equations");
  if (derived.faults.length === 0) return derived;
  const instead = byNodes(task, acting);
  return { ...instead, faults: [...derived.faults, ...instead.faults] };
}

function byShortcut<T>(task: Task<T>, acting: Acting<T>, shortcut: Shortcut<T>): Derived {
  const notebook = notebookFor(task);
  writeOpening(acting, notebook);
  writePhasors(acting, notebook, shortcut.used);
  shortcut.write(notebook);
  return derivedOf(notebook);
}

/** Node or mesh equations, whichever are fewer; node equations where they are as many. */
function equationsFor<T>(task: Task<T>, acting: Acting<T>): { readonly lines: number; write(): Derived } {
  const nodes = nodeEquations(acting, task);
  const meshes = meshEquations(acting, task.linear);
  if (typeof meshes === "string" || meshes.unknowns >= nodes.unknowns) {
    return { lines: nodes.lines, write: () => byNodes(task, acting, nodes) };
  }
  return {
    lines: meshes.lines,
    write: () => {
      const derived = byMeshes(task, acting, meshes);
      return typeof derived === "string" ? byNodes(task, acting) : derived;
    },
  };
}

/** The lines by mesh currents; why there are none where the method does not apply. */
export function byMeshes<T>(
  task: Task<T>,
  acting = actingFor(task),
  equations: MeshEquations<T> | NoMeshes = meshEquations(acting, task.linear),
): Derived | NoMeshes {
  if (typeof equations === "string") return equations;
  if (equations.unknowns > WORKING_LIMIT.unknowns) return OMITTED;
  const notebook = notebookFor(task);
  writeOpening(acting, notebook);
  writePhasors(acting, notebook, admittancesOf(acting));
  const found = equations.write(notebook);
  if (found !== null) writeLastHop(acting, task.linear, task.name, found, notebook);
  return derivedOf(notebook);
}

export function actingFor<T>({ circuit, set, sources, numerals }: Task<T>): Acting<T> {
  return actingOn(circuit, set, sources, numerals);
}

export function notebookFor<T>({ numerals, set, name }: Task<T>): Notebook<T> {
  return new Notebook(numerals, set.arithmetic, name.text);
}

export function admittancesOf<T>(acting: Acting<T>): number[] {
  return acting.live.filter((i) => acting.laws[i]?.kind === "admittance");
}
