import type { PaperName, SymbolSet } from "../figure";

/** What comes first in the equations of worked lines: the letter symbols, or the numbers put in for them. */
export type EquationOrder = "symbols" | "numbers";

/** How a person likes the page to look; kept in this browser and shared with nobody. */
export type PaperSettings = {
  readonly paper: PaperName;
  readonly symbols: SymbolSet;
  /** Whether ink goes along when a drawing is saved or printed. */
  readonly annotations: "with" | "without";
  readonly equations: EquationOrder;
};

export const DEFAULT_SETTINGS: PaperSettings = {
  paper: "light",
  symbols: "iec",
  annotations: "with",
  equations: "symbols",
};

/** Under which a browser keeps its settings. */
export const KEY = "addend.paper";
const CHANGED = "addend-paper-changed";

/** Reads settings from text that anybody may have written; what it does not say plainly is as by default. */
export function readSettings(text: string | null): PaperSettings {
  try {
    const json: unknown = JSON.parse(text ?? "{}");
    const given = typeof json === "object" && json !== null ? json : {};
    return {
      paper: "paper" in given && given.paper === "dark" ? "dark" : DEFAULT_SETTINGS.paper,
      symbols: "symbols" in given && given.symbols === "ieee" ? "ieee" : DEFAULT_SETTINGS.symbols,
      annotations: "annotations" in given && given.annotations === "without" ? "without" : DEFAULT_SETTINGS.annotations,
      equations: "equations" in given && given.equations === "numbers" ? "numbers" : DEFAULT_SETTINGS.equations,
    };
  } catch {
    return DEFAULT_SETTINGS;
  }
}

let last: { readonly text: string | null; readonly settings: PaperSettings } = {
  text: null,
  settings: DEFAULT_SETTINGS,
};

/** The settings of this browser; the same object until they change. */
export function storedSettings(): PaperSettings {
  const text = storedText();
  if (text !== last.text) last = { text, settings: readSettings(text) };
  return last.settings;
}

function storedText(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null; // a browser that stores nothing shows the default
  }
}

export function storeSettings(settings: PaperSettings): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(settings));
  } catch {
    return;
  }
  window.dispatchEvent(new Event(CHANGED));
}

/** Calls back when the settings change, here or in another window; returns its own undo. */
export function observeSettings(listener: () => void): () => void {
  window.addEventListener(CHANGED, listener);
  window.addEventListener("storage", listener);
  return () => {
    window.removeEventListener(CHANGED, listener);
    window.removeEventListener("storage", listener);
  };
}
