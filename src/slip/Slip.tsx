"use client";

import type { CSSProperties } from "react";
import type { Board, BoardPart, BoardWanted, BoardWire, Command, EntryId } from "../../shared/board";
import { isName, readValueText } from "../../shared/board";
import { quantityProblemText } from "../../shared/quantity";
import { kindWords } from "../words";
import styles from "./slip.module.css";
import { TextField } from "./TextField";
import { turnedWanted, wantCommand, wantedOf } from "./wantedChoices";

type Props = {
  readonly board: Board;
  readonly entry: EntryId;
  readonly command: (command: Command) => void;
  readonly close: () => void;
  readonly newId: () => EntryId;
  readonly style: CSSProperties;
};

/** The slip of paper beside the chosen symbol: everything that can be changed about it, in words. */
export function Slip(props: Props) {
  const { board, entry, close, style } = props;
  const part = board.parts.find((candidate) => candidate.id === entry);
  const wire = board.wires.find((candidate) => candidate.id === entry);
  const isReference = board.references.some((symbol) => symbol.id === entry);
  if (!part && !wire && !isReference) return null;
  const title = part ? `${part.name}, a ${kindWords(part.kind)}` : wire ? "A wire" : "The reference node, 0 V";
  return (
    <section className={styles.slip} style={style} aria-label={title} data-testid="slip">
      <header>
        <h2>{title.replace("a ideal", "an ideal")}</h2>
        <button type="button" onClick={close}>
          Close
        </button>
      </header>
      {part && <PartFields {...props} part={part} key={part.id} />}
      {(part || wire) && <WantedRows {...props} branch={(part ?? wire) as BoardPart | BoardWire} />}
      <div className={styles.row}>
        {(part || wire) && <WantButtons {...props} branch={(part ?? wire) as BoardPart | BoardWire} />}
        <button
          type="button"
          className={styles.danger}
          onClick={() => {
            props.command({ do: "delete", ids: [entry] });
            close();
          }}
        >
          Delete
        </button>
      </div>
    </section>
  );
}

function PartFields({ board, part, command }: Props & { readonly part: BoardPart }) {
  const taken = new Set([...board.parts, ...board.wires].map((other) => other.name));
  const nameFault = (text: string) => {
    if (!isName(text)) return "A name has 1 to 24 characters and no spaces.";
    return taken.has(text) ? `${text} is the name of another part.` : null;
  };
  const valueFault = (text: string) => {
    if (!("value" in part) || text.trim() === "") return null;
    const reading = readValueText(part.kind, text);
    return reading.ok ? null : quantityProblemText(reading.problem);
  };
  return (
    <>
      <div className={styles.fields}>
        {"value" in part && (
          <TextField
            label={"control" in part ? "Gain" : part.kind === "ideal-transformer" ? "Ratio" : "Value"}
            value={part.value}
            fault={valueFault}
            save={(value) => command({ do: "setValue", id: part.id, value })}
            isFirst
          />
        )}
        <TextField
          label="Name"
          value={part.name}
          fault={nameFault}
          save={(name) => command({ do: "rename", id: part.id, name })}
        />
      </div>
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
}: { readonly part: Extract<BoardPart, { kind: "switch" }> } & Pick<Props, "command">) {
  const next = part.state === "open" ? "closed" : "open";
  return (
    <button type="button" onClick={() => command({ do: "setSwitch", id: part.id, state: next })}>
      {part.state === "open" ? "Close the switch" : "Open the switch"}
    </button>
  );
}

type WantedProps = Props & { readonly branch: BoardPart | BoardWire };

function WantedRows({ board, branch, command }: WantedProps) {
  return wantedOf(board, branch.id).map((entry) => <WantedRow key={entry.id} wanted={entry} command={command} />);
}

function WantButtons({ board, branch, command, newId }: WantedProps) {
  const wanted = wantedOf(board, branch.id);
  const isWire = "points" in branch;
  const has = (kind: BoardWanted["kind"]) => wanted.some((entry) => entry.kind === kind);
  const want = (quantity: "current" | "voltage") => command(wantCommand(board, branch.id, quantity, newId()));
  if (!isWire && branch.shape === "block") return null;
  return (
    <>
      {!has("current") && (
        <button type="button" onClick={() => want("current")}>
          Want its current
        </button>
      )}
      {!isWire && !has("voltage") && (
        <button type="button" onClick={() => want("voltage")}>
          Want its voltage
        </button>
      )}
    </>
  );
}

function WantedRow({ wanted, command }: { readonly wanted: BoardWanted } & Pick<Props, "command">) {
  const turned = turnedWanted(wanted);
  return (
    <fieldset className={styles.wanted}>
      <legend>Wanted {wanted.kind}</legend>
      <div className={styles.wantedFields}>
        <TextField
          label="Called"
          value={wanted.name ?? ""}
          fault={(text) => (isName(text) ? null : "A name has 1 to 24 characters and no spaces.")}
          save={(name) => command({ do: "rename", id: wanted.id, name })}
        />
        <div className={styles.row}>
          {turned && (
            <button type="button" onClick={() => command(turned)}>
              {wanted.kind === "current" ? "Turn it" : "Swap"}
            </button>
          )}
          <button type="button" onClick={() => command({ do: "clearWanted", id: wanted.id })}>
            Not wanted
          </button>
        </div>
      </div>
    </fieldset>
  );
}
