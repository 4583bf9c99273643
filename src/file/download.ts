/** Hands a file to the browser to be saved. */
export function download(content: Blob, name: string): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // Freed a while later: some browsers only begin to read it after the click is over.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** A file's name made of a title: letters, digits and hyphens, never empty. */
export function fileName(title: string, ending: string): string {
  const words = title
    .normalize("NFC")
    .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
    .replaceAll(/^-+|-+$/g, "")
    .slice(0, 60);
  return `${words === "" ? "circuit" : words}.${ending}`;
}
