import { type EntryId, type InkSpot, inkSpot } from "../../shared/board";
import type { Role } from "../../shared/messages";
import { readStrokeTail, type StrokeTail } from "./liveStroke";

/** What a page shows of its person to the others, besides what the server says of who they are. */
export type Presence = {
  /** Where the pointer is on the board, null off it. */
  readonly pointer: InkSpot | null;
  /** Whether the pointer is there for the others to follow. */
  readonly isPointing: boolean;
  /** Key of the open card. */
  readonly card: string;
  /** Entry of the wanted quantity in focus. */
  readonly wanted: string | null;
  readonly selection: readonly EntryId[];
  /** The line that is being drawn. */
  readonly stroke: StrokeTail | null;
};

/** Who somebody is. The server writes it into each state, so that nobody can pass for another. */
export type Who = { readonly id: string | null; readonly name: string; readonly role: Role | null };

const SELECTION_LIMIT = 200;
const TEXT_LIMIT = 2000;

/** Reads a page's awareness state, which may be of anybody's making: what is malformed in it counts as not shown. */
export function readPresence(state: unknown): Presence {
  const { pointer, isPointing, card, wanted, selection, stroke } = fieldsOf(state);
  return {
    pointer: readSpot(pointer),
    isPointing: isPointing === true,
    card: readText(card) ?? "",
    wanted: readText(wanted),
    selection: Array.isArray(selection)
      ? selection.slice(0, SELECTION_LIMIT).filter((id): id is EntryId => typeof id === "string")
      : [],
    stroke: readStrokeTail(stroke),
  };
}

/** Who a state belongs to; "Guest" where the server has said nothing. */
export function readWho(state: unknown): Who {
  const { id, name, role } = fieldsOf(fieldsOf(state).who);
  return {
    id: readText(id),
    name: typeof name === "string" && name.trim() !== "" ? name.slice(0, 40) : "Guest",
    role: role === "instructor" || role === "learner" || role === "observer" ? role : null,
  };
}

/** What {@link readPresence} reads. */
export function presenceFields(shown: Partial<Presence>): Readonly<Record<string, unknown>> {
  if (!shown.pointer) return shown;
  return { ...shown, pointer: [shown.pointer.x, shown.pointer.y] };
}

function fieldsOf(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null ? (value as Readonly<Record<string, unknown>>) : {};
}

function readSpot(value: unknown): InkSpot | null {
  if (!Array.isArray(value) || value.length !== 2) return null;
  const [x, y] = value as readonly unknown[];
  return typeof x === "number" && typeof y === "number" && Number.isFinite(x + y) ? inkSpot(x, y) : null;
}

function readText(value: unknown): string | null {
  return typeof value === "string" && value.length <= TEXT_LIMIT ? value : null;
}
