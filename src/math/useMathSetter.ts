"use client";

import { useEffect, useState } from "react";
import { loadMathSetter, type MathSetter, mathSetterNow } from "./mathSetter";

/** The setter of mathematics, null until it has come; until then a formula's source says the same. */
export function useMathSetter(): MathSetter | null {
  const [setter, setSetter] = useState<MathSetter | null>(mathSetterNow);
  useEffect(() => {
    let isGone = false;
    void loadMathSetter().then((loaded) => {
      if (!isGone) setSetter(() => loaded);
    });
    return () => {
      isGone = true;
    };
  }, []);
  return setter;
}
