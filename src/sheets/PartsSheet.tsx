"use client";

import { type BoardPart, entryId } from "../../shared/board";
import { NODE_NAME, REFERENCE, type Tool } from "../board";
import { boxAround, type Figure, FigureSvg, type SymbolSet } from "../figure";
import { referenceSymbol } from "../figure/referenceSymbol";
import { partSymbol } from "../figure/symbols";
import { Sheet } from "./Sheet";
import styles from "./sheets.module.css";

type Props = {
  readonly symbols: SymbolSet;
  readonly take: (tool: Tool) => void;
  readonly close: () => void;
};

type Choice = { readonly name: string; readonly what: string; readonly tool: Tool };

const line = (kind: Extract<Tool, { do: "line" }>["kind"]): Tool => ({ do: "line", kind });
const block = (kind: Extract<Tool, { do: "block" }>["kind"]): Tool => ({ do: "block", kind, turn: 0, flip: false });

const CHOICES: readonly Choice[] = [
  { name: "Dependent voltage source, of a voltage", what: "its voltage is μ times a voltage", tool: line("vcvs") },
  { name: "Dependent voltage source, of a current", what: "its voltage is r times a current", tool: line("ccvs") },
  { name: "Dependent current source, of a voltage", what: "its current is g times a voltage", tool: line("vccs") },
  { name: "Dependent current source, of a current", what: "its current is β times a current", tool: line("cccs") },
  { name: "Op amp", what: "ideal: no input current, no voltage between its inputs", tool: block("ideal-opamp") },
  { name: "Transformer", what: "ideal: its voltages are in the ratio of its turns", tool: block("ideal-transformer") },
  { name: "Switch", what: "a click opens and closes it", tool: line("switch") },
  { name: "Reference node", what: "the node that is at 0 V", tool: REFERENCE },
  { name: "Node name", what: "a name of your own for a node", tool: NODE_NAME },
];

/** The parts that are not drawn by typing a value, each with its symbol. */
export function PartsSheet({ symbols, take, close }: Props) {
  return (
    <Sheet title="More parts" close={close}>
      <p>
        Resistors, capacitors, inductors and independent sources need no sheet: draw a line with Stretch and type a
        value, such as 3.3k, 22 µF, 15 mH, 9 V or 5 mA.
      </p>
      <ul className={styles.parts}>
        {CHOICES.map(({ name, what, tool }) => (
          <li key={name}>
            <button
              type="button"
              onClick={() => {
                take(tool);
                close();
              }}
            >
              <FigureSvg figure={symbolFigure(tool, symbols)} weight={1.4} className={styles.symbol ?? ""} />
              <span>
                <b>{name}</b>
                <span>{what}</span>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}

const NOTHING_ELSE = { bodies: new Map(), marks: [], covered: [] };

function symbolFigure(tool: Tool, symbols: SymbolSet): Figure {
  const common = { id: entryId(""), name: "", value: "" };
  const extent = boxAround([
    { x: -48, y: -44 },
    { x: 48, y: 44 },
  ]);
  if (tool.do === "line") {
    const ends = { shape: "line" as const, from: { x: -2, y: 0 }, to: { x: 2, y: 0 } };
    const part = { ...common, ...ends, kind: tool.kind, control: null, state: "open" } as BoardPart;
    return { strokes: partSymbol(part, "acting", "ink", symbols), labels: [], extent, ...NOTHING_ELSE };
  }
  if (tool.do === "block") {
    const part = {
      ...common,
      shape: "block" as const,
      kind: tool.kind,
      at: { x: 0, y: 0 },
      turn: 0,
      flip: false,
    } as const;
    return { strokes: partSymbol(part, "acting", "ink", symbols), labels: [], extent, ...NOTHING_ELSE };
  }
  if (tool.do === "reference") {
    return { strokes: referenceSymbol({ x: 0, y: -0.7 }), labels: [], extent, ...NOTHING_ELSE };
  }
  const box = { x: -30, y: -14, width: 60, height: 24 };
  const runs = [[{ text: "out", style: "plain" as const }]];
  const name = { lines: runs, box, align: "middle" as const, size: 24, tone: "soft" as const, entry: null };
  return { strokes: [], labels: [name], extent, ...NOTHING_ELSE };
}
