import type { Answers } from "../../shared/messages";
import type { Report } from "../../shared/solve";
import type { WholeWorkings } from "../access/wholeWorkings";

/** All that the solver has to say; the room leaves out what somebody is not to be sent. */
export type SolvedAnswers = Omit<Answers, "report"> & { readonly report: Report | null };

/** All workings of a board. The digest is the same for two revisions with the same workings. */
export type DerivedWorkings = WholeWorkings & { readonly digest: string };

export type BoardAtTurn = { readonly revision: number; readonly board: Uint8Array };

/** What a room wants solved. */
export type SolverJob = {
  readonly room: string;
  /** The board as it is when its turn comes, so that the latest revision wins. */
  readonly take: () => BoardAtTurn;
  readonly deliver: (answers: SolvedAnswers) => void;
};

/** What a room wants worked out line by line. */
export type DeriveJob = Pick<SolverJob, "room" | "take"> & { readonly deliver: (workings: DerivedWorkings) => void };

export interface Solver {
  /** Asks for answers to the room's board. A job of the same room that still waits is replaced, and keeps its turn. */
  request(job: SolverJob): void;
  /** Asks for the worked lines of the room's board, in the same way. No request for answers ever waits for them. */
  derive(job: DeriveJob): void;
  /** Drops the room's waiting jobs; what is under way is not delivered. */
  forget(room: string): void;
  close(): Promise<void>;
}
