"use client";

import type { ComponentProps } from "react";
import type { Board, Command, EntryId } from "../../shared/board";
import { BoardPane, type BoardTools, type PanePlace, screenBox, ViewWords } from "../board";
import { type Box, type Figure, growBox, PAPERS } from "../figure";
import type { PaperSettings } from "../settings";
import { AskSheet, KeysSheet, PaperSheet, PartsSheet } from "../sheets";
import { Slip, slipPlace } from "../slip";
import type { ShownProblem } from "../words";
import styles from "./room.module.css";
import { captionText } from "./texts";
import type { useRoomView } from "./useRoomView";

type Props = {
  readonly board: Board;
  readonly view: ReturnType<typeof useRoomView>;
  readonly tools: BoardTools;
  readonly settings: PaperSettings;
  readonly problems: readonly ShownProblem[];
  readonly command: (command: Command) => void;
  readonly newId: () => EntryId;
} & Pick<ComponentProps<typeof BoardPane>, "ink" | "layers" | "printLayers" | "hint"> & {
    /** What else lies on the pane, such as ink and the others' pointers. */
    readonly children?: (place: PanePlace) => React.ReactNode;
  };

/** The board with what lies on it: the words for the view, the slip of what is chosen, and the sheets. */
export function RoomBoard({
  view,
  tools,
  settings,
  problems,
  children,
  ink,
  layers,
  printLayers,
  hint,
  ...common
}: Props) {
  const { board } = common;
  const entries = [...tools.selection];
  return (
    <>
      <BoardPane
        {...common}
        {...(ink ? { ink } : {})}
        {...(layers ? { layers } : {})}
        {...(printLayers ? { printLayers } : {})}
        {...(hint === undefined ? {} : { hint })}
        figure={view.figure}
        figureWith={view.figureWith}
        tools={tools}
        problems={problems}
        paper={PAPERS[settings.paper]}
        symbols={settings.symbols}
        caption={captionText(view.card, board, view.becomes !== null)}
      >
        {(place) => (
          <>
            <ViewWords
              legend="View"
              className={styles.viewWords ?? ""}
              fit={place.viewport.fit}
              zoom={place.viewport.zoom}
            >
              {/* What a phone has no keys for. */}
              <button type="button" onClick={place.actions.paste}>
                Paste
              </button>
            </ViewWords>
            {children?.(place)}
            {entries.length > 0 && !place.isBusy && (
              <Slip
                key={entries.join(" ")}
                {...common}
                entries={entries}
                setTool={tools.setTool}
                actions={place.actions}
                close={() => tools.choose(null)}
                style={slipStyle(place, view.figure)}
                isTyping={tools.tool.do !== "select"}
              />
            )}
          </>
        )}
      </BoardPane>
      <OpenSheet {...{ view, tools, settings }} board={board} command={common.command} />
    </>
  );
}

function OpenSheet({ board, view, tools, settings, command }: Omit<Props, "problems" | "newId">) {
  const { sheet, openSheet, setTool } = tools;
  const close = () => openSheet(null);
  switch (sheet) {
    case null:
      return null;
    case "parts":
      return <PartsSheet symbols={settings.symbols} take={setTool} close={close} />;
    case "ask":
      return (
        <AskSheet {...{ board, command, close }} take={setTool} focus={view.focusEntry} setFocus={view.setFocusEntry} />
      );
    case "paper":
      return <PaperSheet settings={settings} close={close} />;
    case "keys":
      return <KeysSheet close={close} />;
  }
}

function slipStyle({ viewport, size, chosenBox }: PanePlace, figure: Figure) {
  const onPane = (box: Box) => screenBox(box, viewport.view);
  return slipPlace(chosenBox && growBox(onPane(chosenBox), 9), figure.covered.map(onPane), size);
}
