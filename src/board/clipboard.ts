const KEY = "addend.clip";

/**
 * Puts a clip where it can be pasted from: on the system's clipboard, where the browser lets a page write to it, and
 * in this browser's own store, which every room opened in it shares.
 */
export function keepClip(text: string): void {
  storeClip(text);
  // Pages that do not come over https, or that have not been given leave, may not write; the store serves them.
  navigator.clipboard?.writeText(text).catch(() => {});
}

/** Keeps a clip in this browser alone. */
export function storeClip(text: string): void {
  try {
    localStorage.setItem(KEY, text);
  } catch {
    // A browser that stores nothing still has its clipboard.
  }
}

/** What was copied last in this browser, empty where nothing was. */
export function storedClip(): string {
  try {
    return localStorage.getItem(KEY) ?? "";
  } catch {
    return "";
  }
}

/** The text of the system's clipboard, else what was copied last in this browser. */
export async function clipboardText(): Promise<string> {
  try {
    const text = await navigator.clipboard.readText();
    return text === "" ? storedClip() : text;
  } catch {
    return storedClip();
  }
}
