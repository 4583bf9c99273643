"use client";

import { useEffect, useRef } from "react";
import type { Moment } from "../../shared/replay";
import { calledView } from "../people";
import type { StillPlace } from "./StillBoard";

type Props = {
  /** The last "come to me" of the moment that is shown. */
  readonly call: Moment["call"];
  /** Whether what others did opens cards here, and so moves the board as well. */
  readonly isFollowing: boolean;
  readonly place: StillPlace;
};

/** Brings the board to each view that everyone was called to, when the session comes to it. */
export function CalledTo({ call, isFollowing, place }: Props) {
  const seen = useRef(call?.sequence ?? 0);
  const latest = useRef({ place, isFollowing });
  latest.current = { place, isFollowing };
  useEffect(() => {
    const isNews = call !== null && call.sequence > seen.current;
    seen.current = call?.sequence ?? 0;
    if (!isNews || !latest.current.isFollowing) return;
    const { viewport, size } = latest.current.place;
    viewport.look();
    viewport.show(calledView(call.view, size));
  }, [call]);
  return null;
}
