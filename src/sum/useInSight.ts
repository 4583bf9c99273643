"use client";

import { type RefObject, useEffect } from "react";

/** Brings what is said to something of one's own into sight once it is there: on a phone it may stand below the page's edge. */
export function useInSight(place: RefObject<HTMLElement | null>, said: object | null): void {
  useEffect(() => {
    if (said !== null) place.current?.scrollIntoView({ block: "nearest" });
  }, [place, said]);
}
