"use client";

import type { RefObject } from "react";
import type { Board, Command } from "../../shared/board";
import { type Figure, spotOf } from "../figure";
import { nameFault, partNameFault, valueFault } from "../slip/faults";
import { entryBox } from "./overlay";
import { PlaceField } from "./PlaceField";
import { StretchField } from "./StretchField";
import type { useBoardInput } from "./useBoardInput";
import type { Editing } from "./useFields";
import { type Size, toScreen, type Viewport } from "./viewport";

type Props = {
  readonly input: ReturnType<typeof useBoardInput>;
  readonly board: Board;
  readonly figure: Figure;
  readonly view: Viewport;
  readonly size: Size;
  readonly command: (command: Command) => void;
  readonly pane: RefObject<HTMLElement | null>;
};

/** The fields that open on the drawing: at a stretched line, at a node that gets a name, at what is edited in place. */
export function BoardFields({ input, board, figure, view, size, command, pane }: Props) {
  const { field, nameField, editing } = input;
  const leave = () => pane.current?.focus({ preventScroll: true });
  const at = editing.of && fieldSpot(editing.of, board, figure, view);
  return (
    <>
      {field.pending && <StretchField {...field} pending={field.pending} view={view} size={size} leave={leave} />}
      {nameField.at && (
        <PlaceField
          key={`${nameField.at.x},${nameField.at.y}`}
          label="Name of the node"
          text={nameField.text}
          at={toScreen(view, spotOf(nameField.at))}
          size={size}
          hint="A name for this node, such as out. Nothing takes its name away."
          fault={(text) => (text === "" ? null : nameFault(text))}
          save={nameField.save}
          cancel={nameField.cancel}
          leave={leave}
        />
      )}
      {editing.of && at && (
        <PlaceField
          key={`${editing.of.entry} ${editing.of.field}`}
          {...editFieldOf(editing.of, board, command)}
          at={at}
          size={size}
          cancel={editing.stop}
          leave={() => {
            editing.stop();
            leave();
          }}
        />
      )}
    </>
  );
}

/** The middle of an entry's label, else of its symbol. */
function fieldSpot({ entry }: Editing, board: Board, figure: Figure, view: Viewport) {
  const label = figure.labels.find((each) => each.entry === entry && each.tone !== "soft");
  const box = label?.box ?? entryBox(entry, board, figure);
  return box && toScreen(view, { x: box.x + box.width / 2, y: box.y + box.height / 2 });
}

function editFieldOf({ entry, field }: Editing, board: Board, command: (command: Command) => void) {
  const part = board.parts.find((each) => each.id === entry);
  const label = board.nodeNames.find((each) => each.id === entry);
  const stop = (text: string, before: string, change: Command) => {
    if (text !== before) command(change);
  };
  if (part && field === "value" && "value" in part) {
    return {
      label: `Value of ${part.name}`,
      text: part.value,
      hint: `The value of ${part.name}.`,
      fault: (text: string) => valueFault(part, text),
      save: (value: string) => stop(value, part.value, { do: "setValue", id: entry, value }),
    };
  }
  const name = part?.name ?? label?.name ?? "";
  return {
    label: `New name of ${name}`,
    text: name,
    hint: part ? `What ${name} is to be called.` : `What node ${name} is to be called.`,
    fault: (text: string) => (part ? partNameFault(board, name, text) : nameFault(text)),
    save: (next: string) => stop(next, name, { do: "rename", id: entry, name: next }),
  };
}
