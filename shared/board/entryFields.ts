import type { Across, BoardPart, WantedMark } from "./board";
import type { NewPart } from "./command";
import type { FieldValue } from "./document";
import { pointText } from "./point";
import { type AcrossKeys, CONTROL_KEYS, WANTED_KEYS } from "./readFields";

/** Fields of an entry as the document keeps them; null where there is none. */
export type EntryFields = Readonly<Record<string, FieldValue | null>>;

/** The fields of a part under a name. */
export function partFields(part: NewPart, name: string): EntryFields {
  const common = { kind: part.kind, name, value: part.value };
  if (part.shape === "block") return { ...common, at: pointText(part.at), turn: part.turn, flip: part.flip };
  const control = part.control ? acrossFieldsOf(part.control, CONTROL_KEYS) : {};
  return { ...common, from: pointText(part.from), to: pointText(part.to), state: part.state ?? null, ...control };
}

/** A part of a board as one that is to be placed. */
export function asNewPart(part: BoardPart): NewPart {
  return { ...part, value: "value" in part ? part.value : null };
}

export function acrossFieldsOf(across: Across, keys: AcrossKeys): EntryFields {
  const byPart = across.by === "part";
  return {
    [keys.part]: byPart ? across.part : null,
    [keys.direction]: byPart ? across.direction : null,
    [keys.from]: byPart ? null : pointText(across.from),
    [keys.to]: byPart ? null : pointText(across.to),
  };
}

export function wantedFields(mark: WantedMark): EntryFields {
  if (mark.kind === "current") {
    return { kind: mark.kind, part: mark.part, direction: mark.direction, winding: mark.winding };
  }
  if (mark.kind === "power") return { kind: mark.kind, part: mark.part };
  return { kind: mark.kind, ...acrossFieldsOf(mark.across, WANTED_KEYS) };
}
