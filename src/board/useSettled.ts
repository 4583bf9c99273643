"use client";

import { useEffect, useState } from "react";

/** How long a view has to stand before what it shows is painted sharply, in ms. */
const SETTLING = 140;

/** Whether a value has stood for a while. */
export function useSettled(value: number | string): boolean {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), SETTLING);
    return () => clearTimeout(timer);
  }, [value]);
  return settled === value;
}
