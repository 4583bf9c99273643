"use client";

import { type RefObject, useEffect, useState } from "react";
import type { Size } from "./viewport";

/** The size of an element in CSS pixels, followed as it changes; zero until it is known. */
export function useSize(element: RefObject<HTMLElement | null>): Size {
  const [size, setSize] = useState<Size>({ width: 0, height: 0 });
  useEffect(() => {
    const target = element.current;
    if (!target) return;
    const observer = new ResizeObserver(() => setSize({ width: target.clientWidth, height: target.clientHeight }));
    observer.observe(target);
    return () => observer.disconnect();
  }, [element]);
  return size;
}
