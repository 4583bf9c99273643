import { invertResidue, multiplyResidues } from "./residues";
import type { WholeRow } from "./wholeRows";

/**
 * An elimination written down once, to be run for any prime: which numbers to combine, in which order. The numbers
 * stand in one array of slots, the entries of the rows first (row by row), fill-in after them.
 */
export type EliminationPlan = {
  readonly order: number;
  readonly sides: number;
  readonly slots: number;
  /** For each pivot: its slot, how many rows follow; for each of these the slot to cancel, how many pairs follow, the pairs (slot, slot of the pivot row). */
  readonly forward: Int32Array;
  /** From the last pivot to the first: column, slot of the pivot, how many pairs (slot, column) follow, the pairs; then a slot for each right-hand side, −1 for 0. */
  readonly backward: Int32Array;
  /** Sign of the permutation from pivot rows to pivot columns: that of the product of pivots as a determinant. */
  readonly sign: 1 | -1;
};

/**
 * Plans the elimination of rows whose entries have the given residues mod p: a shortest row as the next pivot row, in
 * it the column with fewest entries (after Markowitz, Management Sci. 3, 1957). An entry that becomes 0 mod p is kept,
 * since it may not be 0 for another prime. Null where the matrix is singular mod p.
 */
export function planElimination(
  rows: readonly WholeRow[],
  residues: Float64Array,
  p: number,
  order: number,
  sides: number,
): EliminationPlan | null {
  const state = startOf(rows, residues, order);
  const forward: number[] = [];
  const pivots: Pivot[] = [];
  for (let step = 0; step < order; step++) {
    const pivot = choosePivot(state);
    if (pivot === null) return null;
    pivots.push(pivot);
    eliminate(state, pivot, p, forward);
  }
  return {
    order,
    sides,
    slots: state.values.length,
    forward: Int32Array.from(forward),
    backward: Int32Array.from(backwardOf(state, pivots, order, sides)),
    sign: signOf(pivots),
  };
}

type Pivot = { readonly row: number; readonly column: number };

type State = {
  readonly order: number;
  /** Slot of each entry of each row, by column; right-hand sides from `order` on. */
  readonly slotOf: Map<number, number>[];
  /** How many entries of a row belong to the matrix. */
  readonly width: number[];
  /** The rows not yet used as pivots that have an entry in a column. */
  readonly rowsOf: Set<number>[];
  readonly active: Set<number>;
  readonly values: number[];
};

function startOf(rows: readonly WholeRow[], residues: Float64Array, order: number): State {
  let slot = 0;
  const slotOf = rows.map(({ columns }) => new Map(columns.map((column) => [column, slot++])));
  const rowsOf = Array.from({ length: order }, () => new Set<number>());
  rows.forEach(({ columns, width }, i) => {
    for (let k = 0; k < width; k++) rowsOf[columns[k] as number]?.add(i);
  });
  return {
    order,
    slotOf,
    width: rows.map(({ width }) => width),
    rowsOf,
    active: new Set(rows.keys()),
    values: [...residues],
  };
}

function choosePivot({ order, slotOf, width, rowsOf, active, values }: State): Pivot | null {
  let best: Pivot | null = null;
  let leastWidth = Number.POSITIVE_INFINITY;
  let fewest = Number.POSITIVE_INFINITY;
  for (const row of active) {
    const own = width[row] as number;
    if (own > leastWidth) continue;
    for (const [column, slot] of slotOf[row] as Map<number, number>) {
      if (column >= order || values[slot] === 0) continue;
      const count = (rowsOf[column] as Set<number>).size;
      if (own === leastWidth && count >= fewest) continue;
      [leastWidth, fewest, best] = [own, count, { row, column }];
    }
  }
  return best;
}

function eliminate(state: State, { row, column }: Pivot, p: number, forward: number[]): void {
  const { order, slotOf, width, rowsOf, active, values } = state;
  const inverseOfPrime = 1 / p;
  const pivotRow = slotOf[row] as Map<number, number>;
  active.delete(row);
  for (const at of pivotRow.keys()) rowsOf[at]?.delete(row);
  const pivotSlot = pivotRow.get(column) as number;
  const inverse = invertResidue(values[pivotSlot] as number, p);
  const targets = rowsOf[column] as Set<number>;
  forward.push(pivotSlot, targets.size);
  for (const i of targets) {
    const target = slotOf[i] as Map<number, number>;
    const cancelled = target.get(column) as number;
    const factor = multiplyResidues(values[cancelled] as number, inverse, p, inverseOfPrime);
    forward.push(cancelled, pivotRow.size - 1);
    for (const [at, source] of pivotRow) {
      if (at === column) continue;
      let slot = target.get(at);
      if (slot === undefined) {
        slot = values.push(0) - 1;
        target.set(at, slot);
        if (at < order) {
          width[i] = (width[i] as number) + 1;
          rowsOf[at]?.add(i);
        }
      }
      forward.push(slot, source);
      const less = (values[slot] as number) - multiplyResidues(factor, values[source] as number, p, inverseOfPrime);
      values[slot] = less < 0 ? less + p : less;
    }
    target.delete(column);
    width[i] = (width[i] as number) - 1;
  }
}

function backwardOf(state: State, pivots: readonly Pivot[], order: number, sides: number): number[] {
  const backward: number[] = [];
  for (let k = pivots.length - 1; k >= 0; k--) {
    const { row, column } = pivots[k] as Pivot;
    const slots = state.slotOf[row] as Map<number, number>;
    const others = [...slots].filter(([at]) => at !== column && at < order);
    backward.push(column, slots.get(column) as number, others.length);
    for (const [at, slot] of others) backward.push(slot, at);
    for (let s = 0; s < sides; s++) backward.push(slots.get(order + s) ?? -1);
  }
  return backward;
}

function signOf(pivots: readonly Pivot[]): 1 | -1 {
  const columnOf = new Map(pivots.map(({ row, column }) => [row, column]));
  // The permutation from rows to columns: each cycle of even length changes the sign.
  let sign: 1 | -1 = 1;
  const rowsInOrder = pivots.map((_, i) => columnOf.get(i) as number);
  const seen = new Array<boolean>(rowsInOrder.length).fill(false);
  for (let start = 0; start < rowsInOrder.length; start++) {
    let length = 0;
    for (let at = start; !seen[at]; at = rowsInOrder[at] as number) {
      seen[at] = true;
      length++;
    }
    if (length > 0 && length % 2 === 0) sign = sign === 1 ? -1 : 1;
  }
  return sign;
}

/**
 * Runs a plan mod p on `slots` (entries' residues first, the rest 0; changed in place). Into `out`: the determinant,
 * then for each right-hand side and each column the determinant times the solution. False where a pivot is 0 mod p.
 */
export function runPlan(plan: EliminationPlan, slots: Float64Array, p: number, out: Float64Array): boolean {
  const determinant = runForward(plan, slots, p);
  if (determinant === 0) return false;
  out[0] = plan.sign === 1 ? determinant : p - determinant;
  runBackward(plan, slots, p, out);
  return true;
}

/** The product of the pivots; 0 as soon as one of them is. Leaves each pivot's inverse in its slot. */
function runForward({ forward }: EliminationPlan, slots: Float64Array, p: number): number {
  const inverseOfPrime = 1 / p;
  let determinant = 1;
  for (let at = 0; at < forward.length; ) {
    const pivotSlot = forward[at++] as number;
    let rows = forward[at++] as number;
    const pivot = slots[pivotSlot] as number;
    if (pivot === 0) return 0;
    determinant = multiplyResidues(determinant, pivot, p, inverseOfPrime);
    const inverse = invertResidue(pivot, p);
    slots[pivotSlot] = inverse;
    for (; rows > 0; rows--) {
      const factor = multiplyResidues(slots[forward[at++] as number] as number, inverse, p, inverseOfPrime);
      const end = at + 1 + 2 * (forward[at] as number);
      at++;
      if (factor === 0) at = end;
      for (; at < end; at += 2) {
        const slot = forward[at] as number;
        const term = multiplyResidues(factor, slots[forward[at + 1] as number] as number, p, inverseOfPrime);
        const less = (slots[slot] as number) - term;
        slots[slot] = less < 0 ? less + p : less;
      }
    }
  }
  return determinant;
}

function runBackward(plan: EliminationPlan, slots: Float64Array, p: number, out: Float64Array): void {
  const { backward, order, sides } = plan;
  const inverseOfPrime = 1 / p;
  const determinant = out[0] as number;
  for (let at = 0; at < backward.length; ) {
    const column = backward[at] as number;
    const inverse = slots[backward[at + 1] as number] as number;
    const pairs = at + 3;
    const endOfPairs = pairs + 2 * (backward[at + 2] as number);
    for (let s = 0; s < sides; s++) {
      const base = 1 + s * order;
      const known = backward[endOfPairs + s] as number;
      // What is solved for is the determinant times x, so the right-hand side is taken as many times.
      let value = known < 0 ? 0 : multiplyResidues(slots[known] as number, determinant, p, inverseOfPrime);
      for (let k = pairs; k < endOfPairs; k += 2) {
        const x = out[base + (backward[k + 1] as number)] as number;
        value -= multiplyResidues(slots[backward[k] as number] as number, x, p, inverseOfPrime);
        if (value < 0) value += p;
      }
      out[base + column] = multiplyResidues(value, inverse, p, inverseOfPrime);
    }
    at = endOfPairs + sides;
  }
}
