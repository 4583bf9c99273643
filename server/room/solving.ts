import type { Report } from "../../shared/solve";
import { ENTRY, type EntryKind, jsonBytes, NOBODY } from "../history";
import type { SolvedAnswers, Solver } from "../solver";
import type { BoardAtTurn } from "../solver/solver";
import type { Broadcast } from "./broadcast";
import { Derivations } from "./derivations";
import type { People } from "./people";

/** A room, as far as its answers depend on it. */
export type SolvedRoom = {
  readonly name: string;
  readonly people: People;
  readonly broadcast: Broadcast;
  readonly solver: Solver;
  /** The board as it is now. */
  readonly board: () => BoardAtTurn;
  readonly revision: () => number;
  /** Calls back once the change with this number is stored. */
  readonly whenStored: (revision: number, deliver: () => void) => void;
  readonly record: (kind: EntryKind, participant: string, bytes: Uint8Array) => void;
  /** Called with each new report, which everybody has been sent what they may have of. */
  readonly onReport: (report: Report | null) => void;
};

/** Has a room's board solved, and the lines behind it worked out, and passes on what comes of it. */
export class Solving {
  readonly #room: SolvedRoom;
  readonly #derivations: Derivations;
  /** JSON of the names of what had an answer last; null before anything had since the room was loaded. */
  #solved: string | null = null;

  constructor(room: SolvedRoom) {
    const { name, people, broadcast, solver, board, revision, whenStored } = room;
    this.#room = room;
    const derived = { name, board, revision, isAnybodyLooking: () => people.areLooking, whenStored };
    this.#derivations = new Derivations(derived, solver, broadcast);
  }

  /** Asks for the answers of the board as it will be then. Solving is for those who look; a room of stock clients costs none. */
  request(): void {
    const { name, people, broadcast, solver, board, whenStored, onReport } = this.#room;
    if (!people.areLooking) return;
    solver.request({
      room: name,
      take: board,
      deliver: (answers) =>
        whenStored(answers.revision, () => {
          broadcast.deliver(answers);
          onReport(answers.report);
          this.#derivations.follow();
          this.#noteSolved(answers);
        }),
    });
  }

  /** To be called when somebody comes to look at answers that are there already. */
  follow(): void {
    this.#derivations.follow();
  }

  /** Puts into the history from when on the circuit answers what is wanted, which a replay can't tell without solving it. */
  #noteSolved({ report }: SolvedAnswers): void {
    const wanted = report?.wanted.filter(({ total }) => total !== null).map(({ name }) => name) ?? [];
    const names = JSON.stringify(wanted);
    if (wanted.length === 0 || names === this.#solved) return;
    this.#solved = names;
    this.#room.record(ENTRY.solved, NOBODY, jsonBytes({ wanted }));
  }
}
