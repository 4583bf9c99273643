import { noWorkings } from "../access";
import type { Solver } from "../solver";
import type { BoardAtTurn } from "../solver/solver";
import type { Broadcast } from "./broadcast";

/** A room, as far as its lines depend on it. */
export type DerivedRoom = {
  readonly name: string;
  /** The board as it is now. */
  readonly board: () => BoardAtTurn;
  readonly revision: () => number;
  readonly isAnybodyLooking: () => boolean;
  /** Calls back once the change with this number is stored. */
  readonly whenStored: (revision: number, deliver: () => void) => void;
};

/** Has a room's lines worked out behind its answers: of the newest board alone, once, and while somebody looks. */
export class Derivations {
  readonly #room: DerivedRoom;
  readonly #solver: Solver;
  readonly #broadcast: Broadcast;
  /** Number of the change to which lines were asked for last. */
  #askedFor = -1;

  constructor(room: DerivedRoom, solver: Solver, broadcast: Broadcast) {
    this.#room = room;
    this.#solver = solver;
    this.#broadcast = broadcast;
  }

  /** To be called when the newest answers are there. Where there are others coming, their lines are waited for. */
  follow(): void {
    const room = this.#room;
    const { answers, revision } = this.#broadcast;
    if (revision !== room.revision() || this.#askedFor === revision || !room.isAnybodyLooking()) return;
    this.#askedFor = revision;
    if (!answers?.report?.wanted.some(({ total }) => total !== null)) {
      this.#broadcast.deliverWorkings({ ...noWorkings(revision), digest: "" });
      return;
    }
    this.#solver.derive({
      room: room.name,
      take: () => {
        const board = room.board();
        this.#askedFor = board.revision;
        return board;
      },
      deliver: (workings) => room.whenStored(workings.revision, () => this.#broadcast.deliverWorkings(workings)),
    });
  }
}
