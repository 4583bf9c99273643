"use client";

import { type ChangeEvent, useState } from "react";
import type { Board, Command, EntryId, InkMark } from "../../shared/board";
import type { Figure } from "../figure";
import { drawInk, inkSvg, NO_INK_DRAWING } from "../ink";
import { Sheet, sheetStyles as styles } from "../paper";
import { type PaperSettings, storeSettings } from "../settings";
import { addingBeside, type ReadCircuit, readCircuit, replacing, writtenCircuit } from "./circuitFiles";
import { download, fileName } from "./download";
import { pngOf } from "./png";
import { standaloneSvg } from "./standaloneSvg";

type Props = {
  readonly room: string;
  readonly board: Board;
  /** The drawing that the board shows, and what it shows: "V1 alone". */
  readonly figure: Figure;
  readonly shown: string;
  /** The ink on it. */
  readonly marks: readonly InkMark[];
  readonly settings: PaperSettings;
  readonly command: (command: Command) => void;
  readonly newId: () => EntryId;
  readonly mayDraw: boolean;
  readonly close: () => void;
};

/** Takes the room's circuit out as a file or a drawing, and brings one in from a file. */
export default function FileSheet(props: Props) {
  return (
    <Sheet title="Files" close={props.close}>
      <SaveCircuit {...props} />
      <SaveDrawing {...props} />
      {props.mayDraw && <BringIn {...props} />}
    </Sheet>
  );
}

const UNREACHED =
  "What reads and writes files could not be fetched from the server. Try again when the page is connected.";

/** Takes the circuit out as a file. */
export function SaveCircuit({ board, room }: Pick<Props, "board" | "room">) {
  const [said, setSaid] = useState("");
  const save = async () => {
    const written = await writtenCircuit(board).catch(() => null);
    if (!written) return setSaid(UNREACHED);
    const { leftOut } = written;
    setSaid(
      leftOut.length > 0 ? `Left out of the file, since their values cannot be read: ${leftOut.join(", ")}.` : "",
    );
    download(new Blob([written.text], { type: "application/json" }), fileName(board.title || room, "json"));
  };
  return (
    <section>
      <h3>The circuit</h3>
      <p>Parts, wires, wanted quantities and their places, as JSON that this page and the command line read.</p>
      <button type="button" onClick={save}>
        Save the circuit as a file
      </button>
      <p role="status" className={styles.problem}>
        {said}
      </p>
    </section>
  );
}

type DrawingProps = Pick<Props, "board" | "room" | "figure" | "shown" | "marks" | "settings">;

/** Takes what the board shows out as a drawing. */
export function SaveDrawing({ board, room, figure, shown, marks, settings }: DrawingProps) {
  const [fault, setFault] = useState<string | null>(null);
  const title = `${board.title || room}, ${shown}`;
  const save = async (make: () => Promise<Blob>, ending: string) => {
    try {
      setFault(null);
      download(await make(), fileName(title, ending));
    } catch (error) {
      setFault(`The drawing could not be made: ${error instanceof Error ? error.message : String(error)}.`);
    }
  };
  const ink = () => (settings.annotations === "with" ? drawInk(marks, "light") : NO_INK_DRAWING);
  const svg = async () =>
    new Blob([await standaloneSvg(figure, title, inkSvg(await ink(), "light"))], { type: "image/svg+xml" });
  const png = async () => pngOf(figure, await ink());
  return (
    <section>
      <h3>The drawing</h3>
      <p>As the board shows it now, with {shown}, on white. What is printed has the same annotations.</p>
      <fieldset>
        <legend>Ink and words on it</legend>
        <Annotations value="with" text="With annotations" settings={settings} />
        <Annotations value="without" text="Without" settings={settings} />
      </fieldset>
      <div className={styles.row}>
        <button type="button" onClick={() => save(svg, "svg")}>
          Save as SVG
        </button>
        <button type="button" onClick={() => save(png, "png")}>
          Save as PNG
        </button>
      </div>
      <p role="status" className={styles.problem}>
        {fault}
      </p>
    </section>
  );
}

type AnnotationsProps = {
  readonly value: PaperSettings["annotations"];
  readonly text: string;
  readonly settings: PaperSettings;
};

function Annotations({ value, text, settings }: AnnotationsProps) {
  return (
    <label className={styles.choice}>
      <input
        type="radio"
        name="annotations"
        checked={settings.annotations === value}
        onChange={() => storeSettings({ ...settings, annotations: value })}
      />
      {text}
    </label>
  );
}

function BringIn({ board, command, newId, close }: Props) {
  const [read, setRead] = useState<(ReadCircuit & { readonly name: string }) | null>(null);
  const open = async (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    // So that the same file, mended meanwhile, can be chosen again.
    event.target.value = "";
    if (!file) return;
    const reading = readCircuit(await file.text()).catch((): ReadCircuit => ({ ok: false, faults: [UNREACHED] }));
    setRead({ ...(await reading), name: file.name });
  };
  const put = (made: Command | null) => {
    if (made) {
      command(made);
      close();
    } else setRead({ ok: false, faults: ["There is not enough room for it on the board."], name: read?.name ?? "" });
  };
  return (
    <section>
      <h3>
        <label htmlFor="circuit-file">Bring in a circuit file</label>
      </h3>
      <p>
        <input id="circuit-file" type="file" accept=".json,application/json" onChange={open} />
      </p>
      <div role="status">
        {read?.ok === false && <FileFaults name={read.name} faults={read.faults} />}
        {read?.ok && (
          <FoundCircuit
            name={read.name}
            found={read.board}
            board={board}
            replace={() => put(replacing(board, read.board, newId))}
            add={() => put(addingBeside(board, read.board, newId))}
          />
        )}
      </div>
    </section>
  );
}

/** Every fault of a file, each with its place in it. */
export function FileFaults({ name, faults }: { readonly name: string; readonly faults: readonly string[] }) {
  return (
    <>
      <p className={styles.problem}>{name} cannot be read:</p>
      <ul>
        {faults.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </>
  );
}

type FoundProps = {
  readonly name: string;
  readonly found: Board;
  readonly board: Board;
  readonly replace: () => void;
  readonly add: () => void;
};

/** Asks before anything on the board is replaced. */
function FoundCircuit({ name, found, board, replace, add }: FoundProps) {
  const count = board.parts.length + board.wires.length;
  if (count === 0) {
    return (
      <div className={styles.asking}>
        <p>
          {name} holds {partsText(found)}.
        </p>
        <button type="button" onClick={replace}>
          Put it on the board
        </button>
      </div>
    );
  }
  return (
    <div className={styles.asking}>
      <p>
        {name} holds {partsText(found)}. The board has {partsText(board)} already. Replacing takes them off for
        everybody in the room; Undo brings them back.
      </p>
      <div className={styles.row}>
        <button type="button" onClick={add}>
          Add it beside them
        </button>
        <button type="button" className={styles.danger} onClick={replace}>
          Replace what is on the board
        </button>
      </div>
    </div>
  );
}

function partsText({ parts }: Board): string {
  return parts.length === 1 ? "one part" : `${parts.length} parts`;
}
