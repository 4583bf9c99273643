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
  const state = startOf(rows, residues, order, sides);
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
    forward: new Int32Array(forward),
    backward: new Int32Array(backwardOf(state, pivots, sides)),
    sign: signOf(pivots),
  };
}

type Pivot = { readonly row: number; readonly column: number };

type State = {
  readonly order: number;
  /** Columns of the matrix and right-hand sides together. */
  readonly stride: number;
  /** `slotAt[row * stride + column]`: 1 + slot of an entry, 0 where there is none. */
  readonly slotAt: Int32Array;
  /** Columns with an entry, in no order; right-hand sides from `order` on. */
  readonly columnsOf: number[][];
  /** How many entries of a row belong to the matrix. */
  readonly width: number[];
  /** The rows not yet used as pivots that have an entry in a column, in no order. */
  readonly rowsOf: number[][];
  readonly active: number[];
  readonly values: number[];
};

function startOf(rows: readonly WholeRow[], residues: Float64Array, order: number, sides: number): State {
  const stride = order + sides;
  const slotAt = new Int32Array(order * stride);
  const [rowsOf, columnsOf]: [number[][], number[][]] = [[], []];
  const [widths, active, values]: [number[], number[], number[]] = [[], [], []];
  for (let i = 0; i < order; i++) rowsOf.push([]);
  for (let i = 0; i < order; i++) {
    const { columns, width } = rows[i] as WholeRow;
    for (let k = 0; k < columns.length; k++) {
      const column = columns[k] as number;
      // Entries have their slots in the order of the rows.
      slotAt[i * stride + column] = values.push(residues[values.length] as number);
      if (k < width) rowsOf[column]?.push(i);
    }
    columnsOf.push(columns.slice());
    widths.push(width);
    active.push(i);
  }
  return { order, stride, slotAt, columnsOf, width: widths, rowsOf, active, values };
}

function choosePivot({ order, stride, slotAt, columnsOf, width, rowsOf, active, values }: State): Pivot | null {
  let best: Pivot | null = null;
  let leastWidth = Number.POSITIVE_INFINITY;
  let fewest = Number.POSITIVE_INFINITY;
  for (const row of active) {
    const own = width[row] as number;
    if (own > leastWidth) continue;
    for (const column of columnsOf[row] as number[]) {
      if (column >= order) continue;
      const count = (rowsOf[column] as number[]).length;
      if (own === leastWidth && count >= fewest) continue;
      if (values[(slotAt[row * stride + column] as number) - 1] === 0) continue;
      [leastWidth, fewest, best] = [own, count, { row, column }];
    }
  }
  return best;
}

function eliminate(state: State, { row, column }: Pivot, p: number, forward: number[]): void {
  const { order, stride, slotAt, columnsOf, width, rowsOf, active, values } = state;
  const inverseOfPrime = 1 / p;
  const ownColumns = columnsOf[row] as number[];
  const own = row * stride;
  removeFrom(active, row);
  for (const at of ownColumns) if (at < order) removeFrom(rowsOf[at] as number[], row);
  const pivotSlot = (slotAt[own + column] as number) - 1;
  const inverse = invertResidue(values[pivotSlot] as number, p);
  const targets = rowsOf[column] as number[];
  forward.push(pivotSlot, targets.length);
  for (const i of targets) {
    const target = i * stride;
    const cancelled = (slotAt[target + column] as number) - 1;
    const factor = multiplyResidues(values[cancelled] as number, inverse, p, inverseOfPrime);
    forward.push(cancelled, ownColumns.length - 1);
    for (const at of ownColumns) {
      if (at === column) continue;
      const source = (slotAt[own + at] as number) - 1;
      let slot = (slotAt[target + at] as number) - 1;
      if (slot < 0) {
        slot = values.push(0) - 1;
        slotAt[target + at] = slot + 1;
        columnsOf[i]?.push(at);
        if (at < order) {
          width[i] = (width[i] as number) + 1;
          rowsOf[at]?.push(i);
        }
      }
      forward.push(slot, source);
      const less = (values[slot] as number) - multiplyResidues(factor, values[source] as number, p, inverseOfPrime);
      values[slot] = less < 0 ? less + p : less;
    }
    removeFrom(columnsOf[i] as number[], column);
    width[i] = (width[i] as number) - 1;
  }
}

/** Takes an element out of a list without an order. */
function removeFrom(list: number[], element: number): void {
  const last = list.pop() as number;
  if (last !== element) list[list.indexOf(element)] = last;
}

function backwardOf(state: State, pivots: readonly Pivot[], sides: number): number[] {
  const { order, stride, slotAt, columnsOf } = state;
  const backward: number[] = [];
  for (let k = pivots.length - 1; k >= 0; k--) {
    const { row, column } = pivots[k] as Pivot;
    const own = row * stride;
    backward.push(column, (slotAt[own + column] as number) - 1, (state.width[row] as number) - 1);
    for (const at of columnsOf[row] as number[]) {
      if (at !== column && at < order) backward.push((slotAt[own + at] as number) - 1, at);
    }
    for (let s = 0; s < sides; s++) backward.push((slotAt[own + order + s] as number) - 1);
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
 * Runs a plan mod p on `slots` (entries' residues first, the rest 0; changed in place). Into `out` from `start`: the determinant,
 * then for each right-hand side and each column the determinant times the solution. False where a pivot is 0 mod p.
 */
export function runPlan(plan: EliminationPlan, slots: Float64Array, p: number, out: Float64Array, start = 0): boolean {
  const determinant = runForward(plan, slots, p);
  if (determinant === 0) return false;
  out[start] = plan.sign === 1 ? determinant : p - determinant;
  runBackward(plan, slots, p, out, start);
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

function runBackward(plan: EliminationPlan, slots: Float64Array, p: number, out: Float64Array, start: number): void {
  const { backward, order, sides } = plan;
  const inverseOfPrime = 1 / p;
  const determinant = out[start] as number;
  for (let at = 0; at < backward.length; ) {
    const column = backward[at] as number;
    const inverse = slots[backward[at + 1] as number] as number;
    const pairs = at + 3;
    const endOfPairs = pairs + 2 * (backward[at + 2] as number);
    for (let s = 0; s < sides; s++) {
      const base = start + 1 + s * order;
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
