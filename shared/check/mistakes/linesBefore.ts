import type { PartId } from "../../circuit";
import type { Amount } from "../../solve";
import type { EnteredNumber } from "../value";
import { type AddendState, type EarlierValue, isCarried, partition, slipsInSum } from "./earlier";
import { enteredValue } from "./enteredValue";
import type { Explanation } from "./explanation";
import { hasAddends, sourcesOf, type Target } from "./target";

/** The values that a learner entered before, beside the value that is asked for now. */
export class LinesBefore {
  readonly #addends: readonly EarlierValue[];
  /** Those that add up to the value asked for, where they do. */
  readonly #whole: readonly EarlierValue[] | null;
  readonly #rightOf: (sources: readonly PartId[]) => Amount | null;
  readonly #figures: number;
  readonly #measure: "peak" | "rms";

  constructor(
    { circuit, wanted, sources }: Target,
    addends: readonly EarlierValue[],
    bookOf: (sources: readonly PartId[]) => { readonly book: { readonly right: Amount } } | null,
    figures: number,
    measure: "peak" | "rms",
  ) {
    const asked = sources ?? sourcesOf(circuit);
    this.#addends = hasAddends(wanted) ? addends : [];
    this.#whole = partition(asked, this.#addends);
    this.#rightOf = (of) => bookOf(of)?.book.right ?? null;
    this.#figures = figures;
    this.#measure = measure;
  }

  readonly stateOf = (sources: readonly PartId[]): AddendState => {
    const same = ({ sources: other }: EarlierValue) =>
      other.length === sources.length && other.every((id) => sources.includes(id));
    const found = this.#addends.find(same);
    return found === undefined ? null : this.#isRight(found) ? "right" : "wrong";
  };

  get areAllRight(): boolean {
    return this.#whole?.every((each) => this.#isRight(each)) ?? false;
  }

  /** Mistakes in adding up values of which one is wrong; where all are right, the catalogue finds them anyway. */
  slips(entered: EnteredNumber): readonly Explanation[] {
    if (this.#whole === null || this.areAllRight || isCarried(entered, this.#whole, this.#figures)) return [];
    return slipsInSum(entered, this.#whole, this.#figures);
  }

  follows(entered: EnteredNumber): readonly (readonly PartId[])[] | null {
    if (this.#whole === null || !isCarried(entered, this.#whole, this.#figures)) return null;
    return this.#whole.filter((each) => !this.#isRight(each)).map(({ sources }) => sources);
  }

  #isRight({ sources, entered }: EarlierValue): boolean {
    const right = this.#rightOf(sources);
    return right !== null && enteredValue(entered, this.#figures, this.#measure).is(right);
  }
}
