"use client";

import { useId } from "react";
import { type Across, type DependentPart, entryId } from "../../shared/board";
import type { SlipProps } from "./Slip";
import styles from "./slip.module.css";
import { turnedAcross } from "./wantedChoices";

type Props = SlipProps & { readonly part: DependentPart };

/** What a dependent source follows: from a list, or picked on the drawing; and in which direction it is counted. */
export function ControlFields({ board, part, command, setTool }: Props) {
  const id = useId();
  const { control } = part;
  const follows = part.kind === "vcvs" || part.kind === "vccs" ? "voltage" : "current";
  const set = (next: Across) => command({ do: "setControl", id: part.id, control: next });
  const branches = [
    ...board.parts.filter((other) => other.shape === "line" && (follows === "voltage" || other.id !== part.id)),
    ...(follows === "current" ? board.wires : []),
  ];
  return (
    <div className={styles.control}>
      <label htmlFor={id}>
        Follows the {follows} {follows === "voltage" ? "across" : "through"}
      </label>
      <select
        id={id}
        value={control === null ? "" : control.by === "part" ? control.part : "points"}
        onChange={(event) => set({ by: "part", part: entryId(event.target.value), direction: "forward" })}
      >
        {control === null && <option value="">nothing yet</option>}
        {control?.by === "points" && <option value="points">two points</option>}
        {branches.map((other) => (
          <option key={other.id} value={other.id}>
            {other.name}
          </option>
        ))}
      </select>
      <div className={styles.row}>
        <button
          type="button"
          onClick={() => setTool({ do: "pick", pick: { for: "control", entry: part.id, follows } })}
        >
          Pick it on the drawing
        </button>
        {control && (
          <button type="button" onClick={() => set(turnedAcross(control))}>
            {follows === "voltage" ? "Swap its + and −" : "Count it the other way"}
          </button>
        )}
      </div>
    </div>
  );
}
