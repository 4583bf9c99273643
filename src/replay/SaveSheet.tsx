"use client";

import { type ComponentProps, useState } from "react";
import { SaveCircuit, SaveDrawing } from "../file";
import { download, fileName } from "../file/download";
import { Sheet, sheetStyles as styles } from "../paper";
import type { ReplayApi } from "./replayApi";

type Props = ComponentProps<typeof SaveDrawing> & {
  readonly api: ReplayApi;
  /** The moment in words. */
  readonly when: string;
  /** Whether the whole session may be taken out. */
  readonly mayExport: boolean;
  readonly close: () => void;
};

/** Takes the board of a moment, or the whole session, out as a file. */
export default function SaveSheet({ api, when, mayExport, close, ...drawing }: Props) {
  return (
    <Sheet title="Save" close={close}>
      <p>The board is saved as it was at {when}.</p>
      <SaveDrawing {...drawing} shown={`${drawing.shown}, ${when}`} />
      <SaveCircuit board={drawing.board} room={drawing.room} />
      {mayExport && <SaveSession api={api} name={drawing.board.title || drawing.room} />}
    </Sheet>
  );
}

function SaveSession({ api, name }: Pick<Props, "api"> & { readonly name: string }) {
  const [fault, setFault] = useState<string | null>(null);
  const [isFetching, setFetching] = useState(false);
  const save = async () => {
    setFetching(true);
    const answer = await api.archive();
    setFetching(false);
    if (!answer.ok) return setFault(answer.refusal.text);
    setFault(null);
    const bytes = answer.value as Uint8Array<ArrayBuffer>;
    download(new Blob([bytes], { type: "application/octet-stream" }), fileName(name, "addend-session"));
  };
  return (
    <section>
      <h3>The session</h3>
      <p>
        All that happened in the room, and in learners’ own tries, as one file. On the first page of this server or
        another it is brought in again, with nothing lost. It has the names that may be kept, all tries and all answers
        in it, so keep it as you would keep a class’s papers.
      </p>
      <button type="button" disabled={isFetching} onClick={save}>
        Save the session as a file
      </button>
      <p role="alert" className={styles.problem}>
        {fault}
      </p>
    </section>
  );
}
