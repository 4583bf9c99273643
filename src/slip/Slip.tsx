"use client";

import { type CSSProperties, type KeyboardEvent, useRef } from "react";
import type { Board, BoardPart, BoardWire, Command, EntryId } from "../../shared/board";
import type { PanePlace, Tool } from "../board";
import { kindWords } from "../words";
import { ControlFields } from "./ControlFields";
import { nameFault, partNameFault, valueFault } from "./faults";
import { PieceButtons } from "./PieceButtons";
import styles from "./slip.module.css";
import { TextField } from "./TextField";
import { WantButtons, WantedRows } from "./WantedRows";

export type SlipProps = {
  readonly board: Board;
  readonly command: (command: Command) => void;
  readonly close: () => void;
  readonly newId: () => EntryId;
  readonly setTool: (tool: Tool) => void;
  readonly actions: PanePlace["actions"];
  readonly style: CSSProperties;
  /** Whether the value takes the keyboard at once, as after a click on a symbol while drawing. */
  readonly isTyping: boolean;
};

type Props = SlipProps & { readonly entries: readonly EntryId[] };

/** The slip of paper beside what is chosen: everything that can be changed about it, in words. */
export function Slip(props: Props) {
  const { board, entries, close, style } = props;
  const [entry] = entries;
  const title = entries.length === 1 && entry ? titleOf(board, entry) : `${entries.length} pieces`;
  const frame = useRef<HTMLElement>(null);
  // A button that goes with what it did takes the focus along; the keyboard then goes on from the slip.
  const keepFocus = () =>
    requestAnimationFrame(() => document.activeElement === document.body && frame.current?.focus());
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== "Escape" || event.defaultPrevented) return;
    event.stopPropagation();
    close();
  };
  if (!entry || title === null) return null;
  return (
    <section
      ref={frame}
      className={styles.slip}
      style={style}
      aria-label={title}
      data-testid="slip"
      tabIndex={-1}
      onClick={keepFocus}
      onKeyDown={onKeyDown}
    >
      <header>
        <h2>{title}</h2>
        <button type="button" onClick={close}>
          Close
        </button>
      </header>
      {entries.length === 1 && <EntryFields {...props} entry={entry} />}
      <PieceButtons {...props} />
    </section>
  );
}

function titleOf(board: Board, entry: EntryId): string | null {
  const part = board.parts.find((each) => each.id === entry);
  if (part) return `${part.name}, ${/^[aeiou]/.test(kindWords(part.kind)) ? "an" : "a"} ${kindWords(part.kind)}`;
  if (board.wires.some((wire) => wire.id === entry)) return "A wire";
  if (board.references.some((symbol) => symbol.id === entry)) return "The reference node, 0 V";
  return board.nodeNames.some((label) => label.id === entry) ? "The name of a node" : null;
}

function EntryFields(props: SlipProps & { readonly entry: EntryId }) {
  const { board, entry, command } = props;
  const part = board.parts.find((each) => each.id === entry);
  const branch = part ?? board.wires.find((each) => each.id === entry);
  const label = board.nodeNames.find((each) => each.id === entry);
  return (
    <>
      {part && <PartFields {...props} part={part} key={part.id} />}
      {label && (
        <TextField
          label="Name"
          value={label.name}
          fault={nameFault}
          save={(name) => command({ do: "rename", id: label.id, name })}
          isFirst={props.isTyping}
        />
      )}
      {branch && <BranchRows {...props} branch={branch} />}
    </>
  );
}

function BranchRows(props: SlipProps & { readonly branch: BoardPart | BoardWire }) {
  return (
    <>
      <WantedRows {...props} />
      <WantButtons {...props} />
    </>
  );
}

function PartFields(props: SlipProps & { readonly part: BoardPart }) {
  const { board, part, command, isTyping } = props;
  return (
    <>
      <div className={styles.fields}>
        {"value" in part && (
          <TextField
            label={"control" in part ? "Gain" : part.kind === "ideal-transformer" ? "Ratio" : "Value"}
            value={part.value}
            fault={(text) => valueFault(part, text)}
            save={(value) => command({ do: "setValue", id: part.id, value })}
            isFirst={isTyping}
          />
        )}
        <TextField
          label="Name"
          value={part.name}
          fault={(text) => partNameFault(board, part.name, text)}
          save={(name) => command({ do: "rename", id: part.id, name })}
        />
      </div>
      {"control" in part && <ControlFields {...props} part={part} />}
      <div className={styles.row}>
        {turnWords(part.kind) !== null && (
          <button type="button" onClick={() => command({ do: "reverse", id: part.id })}>
            {turnWords(part.kind)}
          </button>
        )}
        {part.kind === "switch" && <SwitchButton part={part} command={command} />}
      </div>
    </>
  );
}

/** How a part is turned round, null where its two ends are alike. */
function turnWords(kind: BoardPart["kind"]): string | null {
  switch (kind) {
    case "voltage-source":
    case "vcvs":
    case "ccvs":
      return "Swap + and −";
    case "current-source":
    case "vccs":
    case "cccs":
      return "Turn the arrow round";
    case "resistor":
    case "capacitor":
    case "inductor":
    case "switch":
    case "ideal-opamp":
    case "ideal-transformer":
      return null;
  }
}

function SwitchButton({
  part,
  command,
}: { readonly part: Extract<BoardPart, { kind: "switch" }> } & Pick<SlipProps, "command">) {
  const next = part.state === "open" ? "closed" : "open";
  return (
    <button type="button" onClick={() => command({ do: "setSwitch", id: part.id, state: next })}>
      {part.state === "open" ? "Close the switch" : "Open the switch"}
    </button>
  );
}
