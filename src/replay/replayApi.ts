import type { RoomCreated } from "../../shared/messages";
import {
  type Chapter,
  type ChapterRequest,
  type Checkpoint,
  type Chunk,
  type GoOn,
  LINK_HEADER,
  type LinkMade,
  type MakeLink,
  type ReplayAnswers,
  type ReplayLink,
  type ReplayManifest,
  type ReplayWorkings,
  type Retention,
  readCheckpoint,
  readChunk,
  readTimeline,
  type Timeline,
} from "../../shared/replay";
import { type Answer, type Asking, askBytes, askJson, type Refusal } from "../access";

/** What a replay asks the server for while it is played. */
export type ReplaySource = {
  /** Entries from one sequence to another, both included; the server may give fewer at once. */
  readonly entries: (from: number, to: number) => Promise<Answer<Chunk>>;
  /** The stored board nearest before a moment; whole where it is that of entry `unfit`. */
  readonly board: (at: number, unfit: number | null) => Promise<Answer<Checkpoint>>;
  readonly answers: (at: number) => Promise<Answer<ReplayAnswers>>;
  readonly workings: (at: number) => Promise<Answer<ReplayWorkings>>;
};

/** All that a replay's page asks of the server about one room, with the secret of the link that it was opened by. */
export type ReplayApi = ReplaySource & {
  readonly manifest: () => Promise<Answer<ReplayManifest>>;
  readonly timeline: () => Promise<Answer<Timeline>>;
  readonly editChapters: (request: ChapterRequest) => Promise<Answer<readonly Chapter[]>>;
  readonly goOn: (request: GoOn) => Promise<Answer<RoomCreated>>;
  readonly links: () => Promise<Answer<readonly ReplayLink[]>>;
  readonly makeLink: (request: MakeLink) => Promise<Answer<LinkMade>>;
  readonly revokeLink: (id: number) => Promise<Answer<readonly ReplayLink[]>>;
  /** The whole session as one file. */
  readonly archive: () => Promise<Answer<Uint8Array>>;
  readonly retention: () => Promise<Answer<Retention>>;
  readonly keep: (retention: Retention) => Promise<Answer<Retention>>;
  readonly deleteRoom: () => Promise<Answer<unknown>>;
};

/** How long a server that did not answer is waited for before it is asked again, in ms. */
export const RETRYING = 3000;

/** Whether a refusal passes by itself, so that it is worth asking again. */
export function isPassing({ code }: Refusal): boolean {
  return code === "unreachable" || code === "unavailable" || code === "tooMany";
}

export function replayApi(room: string, secret: string | null): ReplayApi {
  const base = roomPath(room);
  const headers = secret === null ? {} : { [LINK_HEADER]: secret };
  const json = <T>(path: string, asking: Asking = {}) => askJson<T>(`${base}${path}`, { headers, ...asking });
  const bytes = async <T>(path: string, read: (bytes: Uint8Array) => T | null) =>
    readAnswer(await askBytes(`${base}${path}`, { headers }), read);
  return {
    manifest: () => json("/replay"),
    timeline: () => bytes("/replay/timeline", readTimeline),
    entries: (from, to) => bytes(`/replay/entries?from=${from}&to=${to}`, readChunk),
    board: (at, unfit) => bytes(`/replay/board?at=${at}${unfit === null ? "" : `&unfit=${unfit}`}`, readCheckpoint),
    answers: (at) => json(`/replay/answers?at=${at}`),
    workings: (at) => json(`/replay/workings?at=${at}`),
    editChapters: (body) => json("/replay/chapters", { body }),
    goOn: (body) => json("/replay/go-on", { body }),
    links: () => json("/replay/links"),
    makeLink: (body) => json("/replay/links", { body }),
    revokeLink: (id) => json(`/replay/links/${id}`, { method: "DELETE" }),
    archive: () => askBytes(`${base}/replay/archive`, { headers }),
    retention: () => json("/retention"),
    keep: (body) => json("/retention", { method: "PUT", body }),
    deleteRoom: () => json("", { method: "DELETE" }),
  };
}

function roomPath(room: string): string {
  return `/api/rooms/${encodeURIComponent(room)}`;
}

const UNREADABLE: Refusal = {
  code: "unavailable",
  text: "The server sent something that this page cannot read. Load the page again; the server may be a newer one.",
};

function readAnswer<T>(answer: Answer<Uint8Array>, read: (bytes: Uint8Array) => T | null): Answer<T> {
  if (!answer.ok) return answer;
  const value = read(answer.value);
  return value === null ? { ok: false, refusal: UNREADABLE } : { ok: true, value };
}
