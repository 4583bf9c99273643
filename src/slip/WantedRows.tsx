"use client";

import type { BoardPart, BoardWanted, BoardWire } from "../../shared/board";
import { wantedWords } from "../words";
import { nameFault } from "./faults";
import type { SlipProps } from "./Slip";
import styles from "./slip.module.css";
import { TextField } from "./TextField";
import { turnedWanted, wantCommand, wantedOf } from "./wantedChoices";

type Props = SlipProps & { readonly branch: BoardPart | BoardWire };

/** The quantities that are wanted of a part or wire. */
export function WantedRows({ board, branch, command }: Props) {
  return wantedOf(board, branch.id).map((entry) => <WantedRow key={entry.id} wanted={entry} command={command} />);
}

/** The ways to want one more of it. */
export function WantButtons({ board, branch, command, newId }: Props) {
  const wanted = wantedOf(board, branch.id);
  const isWire = "points" in branch;
  if (!isWire && branch.shape === "block") return null;
  const kinds = isWire ? (["current"] as const) : (["current", "voltage", "power"] as const);
  const free = kinds.filter((kind) => !wanted.some((entry) => entry.kind === kind));
  if (free.length === 0) return null;
  return (
    <div className={styles.row}>
      <span className={styles.rowWords}>Want its</span>
      {free.map((kind) => (
        <button
          key={kind}
          type="button"
          aria-label={`Want its ${kind}`}
          onClick={() => command(wantCommand(board, branch.id, kind, newId()))}
        >
          {kind}
        </button>
      ))}
    </div>
  );
}

function WantedRow({ wanted, command }: { readonly wanted: BoardWanted } & Pick<SlipProps, "command">) {
  const turned = turnedWanted(wanted);
  return (
    <fieldset className={styles.wanted}>
      <legend>Wanted: {wantedWords(wanted.kind).replace(/^An? |^The /, "")}</legend>
      <div className={styles.wantedFields}>
        <TextField
          label="Called"
          value={wanted.name ?? ""}
          fault={nameFault}
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
