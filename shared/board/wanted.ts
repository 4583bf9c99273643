import { unreachable } from "../quantity";
import type { BoardWanted, EntryId } from "./board";

/** What can be wanted, in the order in which it is offered. */
export const WANTED_KINDS: readonly BoardWanted["kind"][] = [
  "current",
  "voltage",
  "power",
  "resistance",
  "impedance",
  "open-circuit-voltage",
  "short-circuit-current",
  "thevenin",
  "norton",
  "maximum-power-load",
];

/** The part or wire that a wanted quantity is marked at, null where it is marked between points. */
export function partOfWanted(wanted: BoardWanted): EntryId | null {
  switch (wanted.kind) {
    case "current":
    case "power":
      return wanted.part;
    case "voltage":
    case "resistance":
    case "impedance":
    case "open-circuit-voltage":
    case "short-circuit-current":
    case "thevenin":
    case "norton":
    case "maximum-power-load":
      return wanted.across.by === "part" ? wanted.across.part : null;
    default:
      return unreachable(wanted);
  }
}
