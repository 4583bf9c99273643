import type { PartKind } from "../circuit";
import type {
  BlockPart,
  BoardWanted,
  DependentPart,
  EntryId,
  OpAmpPart,
  SwitchPart,
  TransformerPart,
  ValuedPart,
} from "./board";
import type { ReadFields } from "./document";
import {
  acrossFields,
  CONTROL_KEYS,
  choiceField,
  directionField,
  endFields,
  entryField,
  flagField,
  malformed,
  nameField,
  pointField,
  textField,
  turnField,
  WANTED_KEYS,
} from "./readFields";
import { WANTED_KINDS } from "./wanted";

type Unnamed<T> = T extends unknown ? Omit<T, "name"> & { readonly asked: string | null } : never;
/** A part before its name is settled against all others. */
export type UnnamedPart = Unnamed<ValuedPart | DependentPart | SwitchPart | OpAmpPart | TransformerPart>;

const KINDS: readonly Exclude<PartKind, "wire">[] = [
  "resistor",
  "capacitor",
  "inductor",
  "voltage-source",
  "current-source",
  "vcvs",
  "vccs",
  "ccvs",
  "cccs",
  "ideal-opamp",
  "ideal-transformer",
  "switch",
];

/** Reads a part's fields; throws Malformed. */
export function readPart(fields: ReadFields, id: EntryId): UnnamedPart {
  const kind = KINDS.find((known) => known === fields.get("kind")) ?? malformed("kind");
  const asked = nameField(fields);
  switch (kind) {
    case "resistor":
    case "capacitor":
    case "inductor":
    case "voltage-source":
    case "current-source":
      return { id, asked, shape: "line", kind, ...endFields(fields), value: textField(fields, "value") };
    case "vcvs":
    case "vccs":
    case "ccvs":
    case "cccs": {
      const control = acrossFields(fields, CONTROL_KEYS);
      return { id, asked, shape: "line", kind, ...endFields(fields), value: textField(fields, "value"), control };
    }
    case "switch": {
      const state = choiceField(fields, "state", ["open", "closed"], "open");
      return { id, asked, shape: "line", kind, ...endFields(fields), state };
    }
    case "ideal-opamp":
      return { id, asked, ...blockFields(fields), kind };
    case "ideal-transformer":
      return { id, asked, ...blockFields(fields), kind, value: textField(fields, "value") };
  }
}

function blockFields(fields: ReadFields): Pick<BlockPart, "shape" | "at" | "turn" | "flip"> {
  return { shape: "block", at: pointField(fields, "at"), turn: turnField(fields), flip: flagField(fields, "flip") };
}

/** Reads a wanted quantity's fields; throws Malformed. */
export function readWanted(fields: ReadFields, id: EntryId): BoardWanted {
  const kind = WANTED_KINDS.find((known) => known === fields.get("kind")) ?? malformed("kind");
  const name = nameField(fields);
  switch (kind) {
    case "current": {
      const winding = choiceField(fields, "winding", ["primary", "secondary"], "primary");
      return {
        id,
        name,
        kind,
        part: entryField(fields, "part"),
        direction: directionField(fields, "direction"),
        winding,
      };
    }
    case "power":
      return { id, name, kind, part: entryField(fields, "part") };
    case "voltage":
    case "resistance":
    case "impedance":
    case "open-circuit-voltage":
    case "short-circuit-current":
    case "thevenin":
    case "norton":
    case "maximum-power-load":
      return { id, name, kind, across: acrossFields(fields, WANTED_KEYS) ?? malformed("part") };
  }
}
