import type { Answers } from "../../shared/messages";
import type { Report } from "../../shared/solve";

/** All that the solver has to say; the room leaves out what somebody is not to be sent. */
export type SolvedAnswers = Omit<Answers, "report"> & { readonly report: Report | null };

/** What a room wants solved. */
export type SolverJob = {
  readonly room: string;
  /** The board as it is when its turn comes, so that the latest revision wins. */
  readonly take: () => { readonly revision: number; readonly board: Uint8Array };
  readonly deliver: (answers: SolvedAnswers) => void;
};

export interface Solver {
  /** Asks for answers to the room's board. A job of the same room that still waits is replaced, and keeps its turn. */
  request(job: SolverJob): void;
  /** Drops the room's waiting job; answers under way are not delivered. */
  forget(room: string): void;
  close(): Promise<void>;
}
