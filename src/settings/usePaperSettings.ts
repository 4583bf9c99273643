"use client";

import { useEffect, useSyncExternalStore } from "react";
import { DEFAULT_SETTINGS, observeSettings, type PaperSettings, storedSettings } from "./paperSettings";

/** This person's settings, applied to the page: `data-paper` on the root element chooses the colours of the page. */
export function usePaperSettings(): PaperSettings {
  const settings = useSyncExternalStore(observeSettings, storedSettings, () => DEFAULT_SETTINGS);
  useEffect(() => {
    document.documentElement.dataset.paper = settings.paper;
  }, [settings.paper]);
  return settings;
}
