/** Puts a text onto the clipboard; false where the browser refuses, as it may on pages that do not come over https. */
export async function copyText(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return copySelected(text);
  }
}

/** The older way, which browsers still allow on such pages: copies what is selected in a field. */
function copySelected(text: string): boolean {
  const focused = document.activeElement;
  const field = document.createElement("textarea");
  field.value = text;
  field.style.cssText = "position: fixed; top: 0; opacity: 0";
  (document.querySelector("dialog[open]") ?? document.body).append(field);
  field.select();
  try {
    return document.execCommand("copy");
  } catch {
    return false;
  } finally {
    field.remove();
    if (focused instanceof HTMLElement) focused.focus({ preventScroll: true });
  }
}
