"use client";

import { type CSSProperties, type KeyboardEvent, useEffect, useRef, useState } from "react";
import type { ZeroingDecision } from "../../shared/check/judgeZeroing";
import { DECISION_CHOICES } from "../../shared/messages";
import type { PanePlace } from "../board";
import { screenBox } from "../board";
import type { Box } from "../figure";
import { moveAlong } from "../paper";
import { DECISION_WORDS, DecisionSign } from "./decisions";
import styles from "./steps.module.css";

/** A source on the drawing: its name, the box of its symbol, and what it becomes. */
export type PlacedSource = { readonly name: string; readonly box: Box; readonly decision: ZeroingDecision };

export type ZeroingLayerProps = {
  readonly place: Pick<PanePlace, "viewport" | "size">;
  readonly sources: readonly PlacedSource[];
  /** Null for those who only look. */
  readonly decide: ((source: string, decision: ZeroingDecision) => void) | null;
};

/** The sources on the drawing as things to press: each offers what it becomes. */
export default function ZeroingLayer({ place, sources, decide }: ZeroingLayerProps) {
  const [open, setOpen] = useState<string | null>(null);
  const layer = useRef<HTMLFieldSetElement>(null);
  const { viewport, size } = place;
  if (decide === null) return null;
  /** Closes the choice, and has the keyboard go on from its source. */
  const goBack = (name: string) => {
    setOpen(null);
    const sources = layer.current?.querySelectorAll<HTMLElement>("[data-source]") ?? [];
    [...sources].find(({ dataset }) => dataset.source === name)?.focus({ preventScroll: true });
  };
  return (
    <fieldset ref={layer} className={styles.layer}>
      <legend className={styles.unseen}>Sources on the drawing</legend>
      {sources.map(({ name, box, decision }) => {
        const symbol = screenBox(box, viewport.view);
        const at = pressable(symbol);
        return (
          <div key={name}>
            <button
              type="button"
              className={styles.source}
              data-source={name}
              style={sourcePlace(at, symbol)}
              aria-label={`${name}: ${DECISION_WORDS[decision]}`}
              aria-expanded={open === name}
              onClick={() => setOpen(open === name ? null : name)}
            />
            {open === name && (
              <SourceChoice
                name={name}
                decision={decision}
                style={choicePlace(at, size)}
                choose={(next) => {
                  decide(name, next);
                  goBack(name);
                }}
                goBack={() => goBack(name)}
                close={() => setOpen(null)}
              />
            )}
          </div>
        );
      })}
    </fieldset>
  );
}

type ChoiceProps = {
  readonly name: string;
  readonly decision: ZeroingDecision;
  readonly style: CSSProperties;
  readonly choose: (decision: ZeroingDecision) => void;
  readonly goBack: () => void;
  /** To be called when the focus has gone elsewhere. */
  readonly close: () => void;
};

/** What a source becomes, to be chosen beside it. */
function SourceChoice({ name, decision, style, choose, goBack, close }: ChoiceProps) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => {
    place.current?.querySelector<HTMLElement>("[aria-pressed=true]")?.focus({ preventScroll: true });
  }, []);
  const onKeyDown = (event: KeyboardEvent<HTMLDivElement>) => {
    if (event.key === "Escape") goBack();
    else moveAlong(event, "button");
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is for fields, and these are buttons
    <div
      ref={place}
      role="group"
      aria-label={`What ${name} becomes`}
      className={styles.choice}
      style={style}
      onKeyDown={onKeyDown}
      onBlur={(event) => {
        const { relatedTarget, currentTarget } = event;
        // A press on its source closes it by itself.
        if (relatedTarget && !currentTarget.parentElement?.contains(relatedTarget)) close();
      }}
    >
      {DECISION_CHOICES.map((each) => (
        <button key={each} type="button" aria-pressed={each === decision} onClick={() => choose(each)}>
          <DecisionSign decision={each} />
          {DECISION_WORDS[each]}
        </button>
      ))}
    </div>
  );
}

/** Smallest side of what is pressed, in pixels. */
const TARGET = 36;

function pressable({ x, y, width, height }: Box): Box {
  const [w, h] = [Math.max(TARGET, width), Math.max(TARGET, height)];
  return { x: x - (w - width) / 2, y: y - (h - height) / 2, width: w, height: h };
}

/** Where a source is pressed, and how far that reaches beyond its symbol, which is as wide as it is high. */
function sourcePlace(at: Box, symbol: Box): CSSProperties {
  const spare = `${(at.width - symbol.width) / 2}px`;
  return { left: at.x, top: at.y, width: at.width, height: at.height, "--spare": spare } as CSSProperties;
}

const CHOICE = { width: 270, height: 64 };
const EDGE = 8;

/** Below a source, or above it where there is no room. */
function choicePlace(at: Box, pane: PanePlace["size"]): CSSProperties {
  const below = at.y + at.height + EDGE;
  const top = below + CHOICE.height + EDGE > pane.height ? at.y - CHOICE.height - EDGE : below;
  const left = at.x + at.width / 2 - CHOICE.width / 2;
  return { left: Math.max(EDGE, Math.min(left, pane.width - CHOICE.width - EDGE)), top: Math.max(EDGE, top) };
}
