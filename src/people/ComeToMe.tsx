"use client";

import { useCallback, useEffect, useRef, useState } from "react";
import type { Call, RoomView } from "../../shared/messages";
import type { PanePlace, Viewport } from "../board";
import { calledView, callView, gently, viewBetween } from "./callView";
import styles from "./people.module.css";
import { isStill } from "./useStillness";

/** What of a page's view is not its place on the paper. */
export type Looking = { readonly card: string; readonly wanted: string | null };

type Props = {
  readonly place: PanePlace;
  readonly looking: Looking;
  readonly look: (looking: Looking) => void;
  /** The latest call of somebody else, a new object each time. */
  readonly call: Call | null;
  /** Calls everybody to a view; null for those who may not. */
  readonly callAll: ((view: RoomView) => void) | null;
  /** Whether a narrow board has words below its caption, so that who called is said at its foot. */
  readonly isTopTaken: boolean;
};

type Before = { readonly looking: Looking; readonly view: Viewport };

/** "Come to me": the word that calls, and on the pages of those who were called, who called and the way back. */
export function ComeToMe({ place, looking, look, call, callAll, isTopTaken }: Props) {
  const { viewport, size } = place;
  const [isSaid, setSaid] = useState(false);
  const [answered, setAnswered] = useState<{ readonly call: Call; readonly before: Before } | null>(null);
  const glide = useGlide(viewport.show);
  const follow = useRef((_call: Call) => {});
  follow.current = (to) => {
    // Called again before going back: the way back still leads to where the person had been of their own accord.
    setAnswered((last) => ({ call: to, before: last?.before ?? { looking, view: viewport.view } }));
    look({ card: to.view.card, wanted: to.view.wanted });
    glide(viewport.view, calledView(to.view, size));
  };
  const seen = useRef(call);
  useEffect(() => {
    if (!call || call === seen.current) return;
    seen.current = call;
    follow.current(call);
  }, [call]);
  const goBack = ({ before }: { readonly before: Before }) => {
    look(before.looking);
    glide(viewport.view, before.view);
    setAnswered(null);
  };
  return (
    <>
      {callAll && (
        <div className={styles.callWords}>
          <button
            type="button"
            onClick={() => {
              callAll(callView(viewport.view, size, looking.card, looking.wanted));
              setSaid(true);
            }}
            onBlur={() => setSaid(false)}
          >
            Call everyone here
          </button>
          <output>{isSaid ? "Everyone is called to this view." : ""}</output>
        </div>
      )}
      <div role="status">
        {answered && (
          <div className={styles.call} data-foot={isTopTaken}>
            <p>{answered.call.from} has called everyone to this view.</p>
            <button type="button" onClick={() => goBack(answered)}>
              Back to where I was
            </button>
            <button type="button" onClick={() => setAnswered(null)}>
              Stay here
            </button>
          </div>
        )}
      </div>
    </>
  );
}

/** How long a page takes to come to another view, in ms. */
const GLIDE_TIME = 450;

/** Moves the view to another one, at once for whoever has asked for stillness. A later movement takes an earlier one's place. */
function useGlide(show: (view: Viewport) => void): (from: Viewport, to: Viewport) => void {
  const frame = useRef<number | null>(null);
  const stop = useCallback(() => {
    if (frame.current !== null) cancelAnimationFrame(frame.current);
    frame.current = null;
  }, []);
  useEffect(() => stop, [stop]);
  return useCallback(
    (from, to) => {
      stop();
      if (isStill()) return show(to);
      const begin = performance.now();
      const tick = (now: number) => {
        const share = Math.min(1, Math.max(0, (now - begin) / GLIDE_TIME));
        show(viewBetween(from, to, gently(share)));
        frame.current = share < 1 ? requestAnimationFrame(tick) : null;
      };
      frame.current = requestAnimationFrame(tick);
    },
    [show, stop],
  );
}
