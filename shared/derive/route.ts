import type { Circuit, PartId } from "../circuit";
import type { SolvedSet } from "../solve";
import type { Linear } from "../solve/superposition";
import { type Acting, actingOn } from "./acting";
import { type Derived, derivedOf } from "./derived";
import { writeLastHop } from "./lastHop";
import { OMITTED, WORKING_LIMIT } from "./limit";
import { meshEquations, type NoMeshes } from "./meshEquations";
import type { Name } from "./names";
import { nodeEquations } from "./nodeEquations";
import { Notebook } from "./notebook";
import type { Numerals } from "./numerals";
import { writeOpening, writePhasors } from "./opening";
import { shortcutFor } from "./shortcut";

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
export function byNodes<T>(task: Task<T>, acting = actingFor(task)): Derived {
  const equations = nodeEquations(acting, task);
  if (equations.unknowns > WORKING_LIMIT.unknowns) return OMITTED;
  const notebook = notebookFor(task);
  writeOpening(acting, notebook);
  writePhasors(acting, notebook, admittancesOf(acting));
  const found = equations.write(notebook);
  if (found !== null) writeLastHop(acting, task.linear, task.name, found, notebook);
  return derivedOf(notebook);
}

/**
 * The lines a good instructor would write: shortcuts where they reach, equations elsewhere. Lines that do not agree with
 * the solver are withheld, their faults kept, and node equations stand in for them.
 */
export function byBestRoute<T>(task: Task<T>): Derived {
  const acting = actingFor(task);
  const shortcut = shortcutFor(acting, task);
  if (shortcut === null) return byEquations(task, acting);
  const notebook = notebookFor(task);
  writeOpening(acting, notebook);
  writePhasors(acting, notebook, shortcut.used);
  shortcut.write(notebook);
  if (notebook.faults.length === 0) return derivedOf(notebook);
  const instead = byNodes(task, acting);
  return { ...instead, faults: [...notebook.faults, ...instead.faults] };
}

/** Node or mesh equations, whichever are fewer; node equations where they are as many. */
function byEquations<T>(task: Task<T>, acting: Acting<T>): Derived {
  const meshes = meshEquations(acting, task.linear);
  if (typeof meshes === "string" || meshes.unknowns >= nodeEquations(acting, task).unknowns)
    return byNodes(task, acting);
  const derived = byMeshes(task, acting);
  if (typeof derived !== "string" && derived.faults.length === 0) return derived;
  const instead = byNodes(task, acting);
  return typeof derived === "string" ? instead : { ...instead, faults: [...derived.faults, ...instead.faults] };
}

/** The lines by mesh currents; why there are none where the method does not apply. */
export function byMeshes<T>(task: Task<T>, acting = actingFor(task)): Derived | NoMeshes {
  const equations = meshEquations(acting, task.linear);
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
