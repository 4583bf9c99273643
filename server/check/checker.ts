import type { Judgement } from "../../shared/check";
import type { TryAction, TryRefusal } from "../../shared/messages";

/** An entry, and the board whose answer it is judged by. */
export type CheckJob = Pick<TryAction, "wanted" | "card" | "text"> & {
  /** Another one for every state of every board. */
  readonly key: string;
  /** As one Yjs update. */
  readonly board: Uint8Array;
};

/** `answer` is the key of the answer that was judged by, as `answerOf` gives it. */
export type Checked =
  | { readonly outcome: "judged"; readonly judgement: Judgement; readonly answer: string }
  | { readonly outcome: "refused"; readonly why: TryRefusal };

export interface Checker {
  /** Judges an entry. Never rejects. */
  check(job: CheckJob): Promise<Checked>;
  close(): Promise<void>;
}
