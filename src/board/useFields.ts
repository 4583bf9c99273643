"use client";

import { useState } from "react";
import {
  type Board,
  type Command,
  type EntryId,
  type Point,
  placingPart,
  readStretch,
  samePoint,
} from "../../shared/board";
import type { PendingStretch } from "./overlay";
import { stretchedPart } from "./stretchPart";

type Input = {
  readonly board: Board;
  readonly command: (command: Command) => void;
  readonly newId: () => EntryId;
};

/** The field at a stretched line: whether it is open, what stands in it, and what comes of that. */
export function useStretchField({ board, command, newId }: Input) {
  const [asked, setAsked] = useState<{ readonly from: Point; readonly to: Point; readonly text: string } | null>(null);
  const pending: PendingStretch | null = asked && { ...asked, reading: readStretch(asked.text) };
  const field = {
    pending,
    text: asked?.text ?? "",
    change: (text: string) => setAsked(asked && { ...asked, text }),
    /** Places what the field says; false where it says nothing that can be placed. */
    done: (): boolean => {
      if (!pending) return true;
      const { from, to, reading } = pending;
      if (reading.make === "nothing") return false;
      if (reading.make === "wire") command({ do: "placeWire", id: newId(), points: [from, to] });
      else command(placingPart(board, stretchedPart(from, to, reading), newId));
      setAsked(null);
      return true;
    },
    cancel: () => setAsked(null),
  };
  return { field, ask: (from: Point, to: Point) => setAsked({ from, to, text: "" }) };
}

/** The field for the name of the node at a point. */
export function useNameField({ board, command, newId }: Input) {
  const [at, setAt] = useState<Point | null>(null);
  const label = at && (board.nodeNames.find((each) => samePoint(each.at, at)) ?? null);
  return {
    at,
    text: label?.name ?? "",
    ask: setAt,
    save: (name: string) => {
      if (!at) return;
      if (name !== "") {
        if (label) command({ do: "rename", id: label.id, name });
        else command({ do: "nameNode", id: newId(), at, name });
      } else if (label) command({ do: "delete", ids: [label.id] });
      setAt(null);
    },
    cancel: () => setAt(null),
  };
}

/** What is edited in place: an entry's value or its name. */
export type Editing = { readonly entry: EntryId; readonly field: "value" | "name" };

/** Where a value is edited in place, the value; else the name; null where an entry has neither. */
export function editingOf(board: Board, entry: EntryId, wanted: Editing["field"]): Editing | null {
  const part = board.parts.find((each) => each.id === entry);
  if (part) return { entry, field: wanted === "value" && "value" in part ? "value" : "name" };
  return board.nodeNames.some((each) => each.id === entry) ? { entry, field: "name" } : null;
}
