import type { TryGlance, TryListed, TryOpened } from "../../shared/messages";
import { findMember, lookRefusal, openRefusal } from "../access";
import { RateLimits } from "../rateLimit";
import type { Room } from "../room";
import { within } from "../within";
import { type ApiAnswer, failure, joinFailure, NOT_STORED } from "./apiAnswer";
import type { RoomMaker } from "./roomMaker";
import type { RoomsApiServices } from "./roomsApi";

/** Who asks, and from which network address; `participant` is null for somebody without a cookie. */
export type Asker = { readonly participant: string | null; readonly address: string };

type TriesApiServices = RoomsApiServices & { readonly maker: RoomMaker };

/** The part of `/api/rooms/<room>/…` that is about learners' own tries of a room's problem. `room` is none of these. */
export class TriesApi {
  readonly #services: TriesApiServices;
  readonly #begun: RateLimits;

  constructor(services: TriesApiServices) {
    this.#services = services;
    this.#begun = new RateLimits(services.limits.beginTryRate);
  }

  /** The room in which a participant tries the problem alone: always the same one, made where there is none yet. */
  async open(room: Room, { participant, address }: Asker): Promise<ApiAnswer> {
    const { directory, registry, maker, limits, now } = this.#services;
    if (participant === null) return REFUSALS.notMember;
    const known = await directory.findTry(room.name, participant);
    const refusal = openRefusal(room.access, participant, known !== null);
    if (refusal !== null) return REFUSALS[refusal];
    if (known === null && !this.#begun.take(address, now())) return TOO_MANY_BEGUN;
    const name = known ?? (await maker.newTry(room.name, participant));
    const own = await registry.open(name);
    // One whose beginning was not stored before the server died begins now. A store that doesn't work is not waited for.
    if ((await within(own.beginTry(), limits.storePatience)) === "late") return NOT_STORED;
    const opened: TryOpened = { room: name };
    return { status: known === null ? 201 : 200, body: opened };
  }

  /** All tries of a room's problem, for its instructors. */
  async list(room: Room, { participant }: Asker): Promise<ApiAnswer> {
    const you = participant === null ? null : room.you(participant);
    if (participant === null || !you) {
      return participant !== null && room.isRemoved(participant) ? REFUSALS.removed : REFUSALS.notMember;
    }
    if (you.role !== "instructor") return failure("notAllowed", "Only the instructor sees whose tries there are.");
    const tries = await this.#services.directory.tries(room.name);
    const body: readonly TryListed[] = tries.map(({ room: name, owner, progress }) => ({
      room: name,
      owner: { id: owner, name: nameOf(room, owner) },
      progress,
    }));
    return { status: 200, body };
  }

  /** One try by the name of its room, for its owner and the instructors. */
  async look(room: Room, name: string, { participant }: Asker): Promise<ApiAnswer> {
    const listed = await this.#services.directory.find(name);
    if (participant === null) return REFUSALS.notMember;
    // Those who may not see a try are not told whether there is one.
    const owner = listed?.tryOf?.room === room.name ? listed.tryOf.owner : null;
    const refusal = lookRefusal(room.access, participant, owner);
    if (refusal !== null) return REFUSALS[refusal];
    if (owner === null) return failure("notFound", "There is no try at this address.");
    const glance: TryGlance = { room: name, owner: { id: owner, name: nameOf(room, owner) } };
    return { status: 200, body: glance };
  }
}

function nameOf(room: Room, participant: string): string {
  return findMember(room.access, participant)?.name ?? "";
}

const REFUSALS = {
  notMember: failure("notMember", "Join the room first; its problem can be tried alone after that."),
  removed: joinFailure("removed"),
  notLearner: failure(
    "notLearner",
    "Learners have tries of their own. An instructor sees all of them, and observers none.",
  ),
  ended: failure("ended", "This room has ended, so no new try of its problem can be begun."),
  notYours: failure("notYours", "Only the learner whose try this is, and the instructor, see it."),
} as const;

const TOO_MANY_BEGUN = failure("tooMany", "Many tries were begun from this network. Wait a moment and try again.");
