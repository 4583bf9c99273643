import type { Board, DependentPart } from "../../shared/board";
import { shownValue } from "../../shared/board";
import type { Run, Stroke } from "./figure";
import { symbolRuns } from "./text";
import { drawAcross, drawCurrent, type Pen } from "./wantedMarks";

/** Whether a dependent source follows a voltage; the others follow a current. */
export function followsVoltage(part: DependentPart): boolean {
  return part.kind === "vcvs" || part.kind === "vccs";
}

/** The quantity that a dependent source follows, by name: that of a wanted quantity where it is the same one. */
export function controlName(part: DependentPart, board: Board): string {
  const { control } = part;
  if (!control) return "?";
  const letter = followsVoltage(part) ? "V" : "I";
  if (control.by === "points") {
    const others = board.parts.filter((other) => "control" in other && other.control?.by === "points");
    return others.length > 1 ? `${letter}c${others.indexOf(part) + 1}` : `${letter}c`;
  }
  const name = [...board.parts, ...board.wires].find((entry) => entry.id === control.part)?.name ?? "?";
  return sameWanted(part, board) ?? `${letter}${name}`;
}

/** Gain times the quantity that is followed, its part as the index: `2·V` with the index R1. */
export function controlledValue(part: DependentPart, board: Board): readonly Run[] {
  const gain = part.value.trim() === "" ? "?" : shownValue(part.kind, part.value);
  return [{ text: `${gain}·`, style: "plain" }, ...symbolRuns(controlName(part, board))];
}

/** Draws the reference direction of each quantity that a source follows, once, where no wanted quantity shows it. */
export function drawControls(pen: Pen): readonly Stroke[] {
  const drawn = new Set<string>();
  return pen.board.parts.flatMap((part) => {
    if (!("control" in part) || !part.control || sameWanted(part, pen.board) !== null) return [];
    const { control } = part;
    const key = JSON.stringify([control, followsVoltage(part)]);
    if (drawn.has(key)) return [];
    drawn.add(key);
    const lines = [symbolRuns(controlName(part, pen.board))];
    if (followsVoltage(part)) return drawAcross(control, true, lines, pen);
    return control.by === "part" ? drawCurrent(control.part, control.direction, "primary", lines, pen) : [];
  });
}

/** The name of the wanted quantity that is just what the source follows, null where none is. */
function sameWanted({ control, ...part }: DependentPart, board: Board): string | null {
  if (control?.by !== "part") return null;
  const kind = part.kind === "vcvs" || part.kind === "vccs" ? "voltage" : "current";
  const same = board.wanted.find((wanted) => {
    if (wanted.kind !== kind) return false;
    const mark = wanted.kind === "current" ? wanted : wanted.across.by === "part" ? wanted.across : null;
    return mark?.part === control.part && mark.direction === control.direction;
  });
  return same?.name ?? null;
}
