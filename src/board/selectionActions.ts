import {
  type Board,
  type Clip,
  type Command,
  carry,
  clipOf,
  cornerOf,
  type EntryId,
  middleOfEntries,
  type Placing,
  type Point,
  pasting,
  rearranging,
  writeClip,
} from "../../shared/board";
import { keepClip } from "./clipboard";
import { NO_SELECTION, type Selection } from "./selection";

/** What actions on a selection need to know and to do. */
export type ActionInput = {
  readonly board: Board;
  readonly selection: Selection;
  readonly select: (selection: Selection) => void;
  readonly command: (command: Command) => void;
  readonly newId: () => EntryId;
  /** Tells the person something that the drawing does not show. */
  readonly say: (text: string) => void;
};

export type SelectionActions = ReturnType<typeof selectionActions>;

const LEAVES_GRID = "There is no more paper in that direction, so nothing was moved.";
/** How far from what it copies a duplicate is put, in grid steps. */
const BESIDE: Point = { x: 2, y: 2 };

/** What can be done to everything that is selected; each is one step of undo. */
export function selectionActions({ board, selection, select, command, newId, say }: ActionInput) {
  const put = (placing: Placing) => {
    const next = carry(board, selection, placing, newId);
    if (next) command(rearranging(board, next));
    else say(LEAVES_GRID);
  };
  const about = () => middleOfEntries(board, selection);
  const putAbout = (kind: "turn" | "mirror") => {
    const middle = about();
    if (middle) put({ kind, about: middle });
  };
  const paste = (clip: Clip, by: Point) => {
    const step = pasting(board, clip, by, newId);
    if (!step) return say(LEAVES_GRID);
    command(step.command);
    select(new Set(step.ids));
  };
  const remove = () => {
    command({ do: "delete", ids: [...selection] });
    select(NO_SELECTION);
  };
  const text = () => writeClip(clipOf(board, selection));
  return {
    about,
    move: (by: Point) => put({ kind: "shift", by }),
    turn: () => putAbout("turn"),
    mirror: () => putAbout("mirror"),
    remove,
    text,
    copy: () => {
      keepClip(text());
      say(countText(selection.size, "copied"));
    },
    cut: () => {
      keepClip(text());
      say(countText(selection.size, "cut"));
      remove();
    },
    duplicate: () => paste(clipOf(board, selection), BESIDE),
    /** With its corner at a point, or, where there is none, beside where it was copied from. */
    paste: (clip: Clip, at: Point | null) => {
      const corner = cornerOf(clip);
      if (corner) paste(clip, at ? { x: at.x - corner.x, y: at.y - corner.y } : BESIDE);
    },
  };
}

function countText(count: number, done: string): string {
  return count === 1 ? `One piece ${done}.` : `${count} pieces ${done}.`;
}
