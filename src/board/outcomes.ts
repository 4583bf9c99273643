import {
  type Across,
  type Board,
  type BoardPart,
  type Command,
  type EntryId,
  type NewPart,
  type Point,
  placedId,
  placingPart,
  samePoint,
} from "../../shared/board";
import { unreachable } from "../../shared/quantity";
import type { Figure } from "../figure";
import { wantAcross } from "../slip/wantedChoices";
import type { Outcome } from "./gesture";
import { entriesWithin, toggled } from "./selection";
import type { SelectionActions } from "./selectionActions";
import type { Pick, Tool } from "./tool";
import type { BoardTools } from "./useBoardTools";

type Input = {
  readonly board: Board;
  readonly figure: Figure;
  readonly tools: BoardTools;
  readonly command: (command: Command) => void;
  readonly newId: () => EntryId;
  readonly actions: SelectionActions;
  readonly say: (text: string) => void;
  /** Opens the field at a stretched line, and that for a node's name. */
  readonly ask: (from: Point, to: Point) => void;
  readonly askName: (at: Point) => void;
};

/** Makes what comes of gestures happen. */
export function performer(input: Input): (outcome: Outcome) => void {
  const { board, figure, tools, command, newId, actions, say } = input;
  return (outcome) => {
    switch (outcome.do) {
      case "nothing":
        return;
      case "select":
        if (outcome.isAdding && outcome.entry) return tools.select(toggled(tools.selection, outcome.entry));
        return tools.choose(outcome.entry);
      case "selectBox": {
        const within = entriesWithin(board, figure, outcome.from, outcome.to);
        return tools.select(outcome.isAdding ? new Set([...tools.selection, ...within]) : within);
      }
      case "click":
        return click(outcome.entry, outcome.isAdding, input);
      case "ask":
        tools.choose(null);
        return input.ask(outcome.from, outcome.to);
      case "line":
        return place(lineOf(outcome.kind, outcome.from, outcome.to), input);
      case "block":
        return placeBlock(tools.tool, outcome.at, input);
      case "wire":
        return command({ do: "placeWire", id: newId(), points: outcome.points });
      case "reference":
        return command(toggleReference(board, outcome.at, newId));
      case "name":
        return input.askName(outcome.at);
      case "move":
        return actions.move(outcome.by);
      case "pick":
        if (tools.tool.do === "pick") picked(tools.tool.pick, outcome.across, input);
        return;
      case "missed":
        return say("There is nothing to pick there. Click a part, or a point on a wire or terminal.");
      default:
        return unreachable(outcome);
    }
  };
}

/** Chooses a symbol; a switch is turned over as well. */
function click(entry: EntryId, isAdding: boolean, { board, tools, command }: Input): void {
  if (isAdding) {
    tools.select(toggled(tools.selection, entry));
    return;
  }
  tools.choose(entry);
  const part = board.parts.find((each) => each.id === entry);
  if (part?.kind === "switch") {
    command({ do: "setSwitch", id: entry, state: part.state === "open" ? "closed" : "open" });
  }
}

function lineOf(kind: Extract<NewPart, { shape: "line" }>["kind"], from: Point, to: Point): NewPart {
  // As with a stretch that is typed on: a voltage source's + is where the line ends.
  const isVoltageSource = kind === "voltage-source" || kind === "vcvs" || kind === "ccvs";
  const ends = isVoltageSource ? { from: to, to: from } : { from, to };
  return { shape: "line", kind, name: null, value: kind === "switch" ? null : "", ...ends };
}

function placeBlock(tool: Tool, at: Point, input: Input): void {
  if (tool.do !== "block") return;
  const { kind, turn, flip } = tool;
  place({ shape: "block", kind, name: null, value: kind === "ideal-transformer" ? "" : null, at, turn, flip }, input);
}

/** Places a part from the sheet and chooses it; a dependent source goes on to what it follows. */
function place(part: NewPart, { board, tools, command, newId }: Input): void {
  const placing = placingPart(board, part, newId);
  command(placing);
  const entry = placedId(placing);
  tools.putDown();
  tools.choose(entry);
  const follows = entry && followsOf(part.kind);
  if (entry && follows) tools.setTool({ do: "pick", pick: { for: "control", entry, follows } });
}

/** What a dependent source of this kind follows, null for other kinds. */
export function followsOf(kind: BoardPart["kind"]): "voltage" | "current" | null {
  if (kind === "vcvs" || kind === "vccs") return "voltage";
  return kind === "ccvs" || kind === "cccs" ? "current" : null;
}

function picked(pick: Pick, across: Across, { board, tools, command, newId, say }: Input): void {
  if (pick.for === "control") {
    if (across.by === "part" && across.part === pick.entry && pick.follows === "current") {
      say("A source cannot follow its own current. Pick another part.");
      return;
    }
    command({ do: "setControl", id: pick.entry, control: across });
    tools.putDown();
    tools.choose(pick.entry);
    return;
  }
  command(wantAcross(board, pick.kind, across, newId()));
  tools.putDown();
  tools.choose(across.by === "part" ? across.part : null);
}

/** A reference symbol goes where there is none, and is taken away where there is one. */
function toggleReference(board: Board, at: Point, newId: () => EntryId): Command {
  const there = board.references.find((symbol) => samePoint(symbol.at, at));
  return there ? { do: "delete", ids: [there.id] } : { do: "placeReference", id: newId(), at };
}
