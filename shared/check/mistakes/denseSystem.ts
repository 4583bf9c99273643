/**
 * Equations A·x = b in complex doubles, written out: row i holds A's entries and then b's. For rough answers about small
 * circuits, where a dense array is quicker than anything clever; the arrays are kept from one system to the next.
 */
export class DenseSystem {
  order = 0;
  #width = 1;
  #re = new Float64Array(0);
  #im = new Float64Array(0);
  #isReal = true;
  #pivotOf = new Int32Array(0);
  /** The solution, once there is one. */
  xRe = new Float64Array(0);
  xIm = new Float64Array(0);

  /** Begins anew with `order` equations that say nothing yet. In real numbers nothing imaginary may be added. */
  begin(order: number, isReal: boolean): void {
    this.order = order;
    this.#width = order + 1;
    this.#isReal = isReal;
    const size = order * this.#width;
    if (this.#re.length < size) {
      this.#re = new Float64Array(2 * size);
      this.#im = new Float64Array(2 * size);
      this.#pivotOf = new Int32Array(2 * order);
      this.xRe = new Float64Array(2 * order);
      this.xIm = new Float64Array(2 * order);
    }
    this.#re.fill(0, 0, size);
    if (!isReal) this.#im.fill(0, 0, size);
  }

  /** Adds to one entry; column `order` is the right-hand side. A row or column of −1 takes nothing. */
  add(row: number, column: number, re: number, im = 0): void {
    if (row < 0 || column < 0) return;
    const at = row * this.#width + column;
    this.#re[at] = (this.#re[at] as number) + re;
    if (!this.#isReal) this.#im[at] = (this.#im[at] as number) + im;
  }

  /**
   * Solves with partial pivoting by rows scaled to one. An unknown that nothing determines is 0. False where that leaves
   * an equation unfulfilled: nothing is known then.
   */
  solve(): boolean {
    this.#scaleRows();
    let row = 0;
    for (let column = 0; column < this.order; column++) {
      const best = this.#largestBelow(row, column);
      this.#pivotOf[column] = best < 0 ? -1 : row;
      if (best < 0) continue;
      if (best !== row) this.#swapRows(row, best, column);
      this.#clearBelow(row, column);
      row++;
    }
    if (!this.#isFulfilled(row)) return false;
    this.#substitute();
    return true;
  }

  #scaleRows(): void {
    for (let row = 0; row < this.order; row++) {
      const start = row * this.#width;
      let largest = 0;
      for (let at = start; at < start + this.order; at++) largest = Math.max(largest, this.#sizeAt(at));
      if (largest === 0) continue;
      for (let at = start; at < start + this.#width; at++) {
        this.#re[at] = (this.#re[at] as number) / largest;
        if (!this.#isReal) this.#im[at] = (this.#im[at] as number) / largest;
      }
    }
  }

  /** |re| + |im|. */
  #sizeAt(at: number): number {
    const re = Math.abs(this.#re[at] as number);
    return this.#isReal ? re : re + Math.abs(this.#im[at] as number);
  }

  #largestBelow(from: number, column: number): number {
    let best = -1;
    let largest = ROUNDING;
    for (let row = from; row < this.order; row++) {
      const size = this.#sizeAt(row * this.#width + column);
      if (size > largest) [largest, best] = [size, row];
    }
    return best;
  }

  #swapRows(a: number, b: number, from: number): void {
    for (const array of this.#isReal ? [this.#re] : [this.#re, this.#im]) {
      for (let column = from; column < this.#width; column++) {
        const [x, y] = [a * this.#width + column, b * this.#width + column];
        const before = array[x] as number;
        array[x] = array[y] as number;
        array[y] = before;
      }
    }
  }

  #clearBelow(pivot: number, column: number): void {
    for (let row = pivot + 1; row < this.order; row++) {
      if (this.#sizeAt(row * this.#width + column) === 0) continue;
      if (this.#isReal) this.#clearReal(row, pivot, column);
      else this.#clearComplex(row, pivot, column);
    }
  }

  #clearReal(row: number, pivot: number, column: number): void {
    const re = this.#re;
    const [start, own] = [row * this.#width, pivot * this.#width];
    const factor = (re[start + column] as number) / (re[own + column] as number);
    re[start + column] = 0;
    for (let at = column + 1; at < this.#width; at++) {
      re[start + at] = (re[start + at] as number) - factor * (re[own + at] as number);
    }
  }

  #clearComplex(row: number, pivot: number, column: number): void {
    const [re, im] = [this.#re, this.#im];
    const [start, own] = [row * this.#width, pivot * this.#width];
    const [pr, pi] = [re[own + column] as number, im[own + column] as number];
    const [r, i] = [re[start + column] as number, im[start + column] as number];
    const square = pr * pr + pi * pi;
    const [fr, fi] = [(r * pr + i * pi) / square, (i * pr - r * pi) / square];
    re[start + column] = 0;
    im[start + column] = 0;
    for (let at = column + 1; at < this.#width; at++) {
      const [xr, xi] = [re[own + at] as number, im[own + at] as number];
      re[start + at] = (re[start + at] as number) - (fr * xr - fi * xi);
      im[start + at] = (im[start + at] as number) - (fr * xi + fi * xr);
    }
  }

  /** Whether the rows without an unknown left say 0 = 0. */
  #isFulfilled(from: number): boolean {
    let largest = 0;
    for (let row = 0; row < this.order; row++) {
      largest = Math.max(largest, this.#sizeAt(row * this.#width + this.order));
    }
    for (let row = from; row < this.order; row++) {
      if (this.#sizeAt(row * this.#width + this.order) > LEFTOVER * largest) return false;
    }
    return true;
  }

  #substitute(): void {
    const [re, im] = [this.#re, this.#im];
    for (let column = this.order - 1; column >= 0; column--) {
      this.xRe[column] = 0;
      this.xIm[column] = 0;
      const row = this.#pivotOf[column] as number;
      if (row < 0) continue;
      const start = row * this.#width;
      let vr = re[start + this.order] as number;
      if (this.#isReal) {
        for (let at = column + 1; at < this.order; at++) vr -= (re[start + at] as number) * (this.xRe[at] as number);
        this.xRe[column] = vr / (re[start + column] as number);
        continue;
      }
      let vi = im[start + this.order] as number;
      for (let at = column + 1; at < this.order; at++) {
        const [ar, ai] = [re[start + at] as number, im[start + at] as number];
        const [xr, xi] = [this.xRe[at] as number, this.xIm[at] as number];
        vr -= ar * xr - ai * xi;
        vi -= ar * xi + ai * xr;
      }
      const [pr, pi] = [re[start + column] as number, im[start + column] as number];
      const square = pr * pr + pi * pi;
      this.xRe[column] = (vr * pr + vi * pi) / square;
      this.xIm[column] = (vi * pr - vr * pi) / square;
    }
  }
}

/** Entries below this share of their row's largest count as rounding, so their unknown is left at 0. */
const ROUNDING = 1e-13;
/** What may be left of an equation without unknowns, beside the right-hand sides of all. */
const LEFTOVER = 1e-9;
