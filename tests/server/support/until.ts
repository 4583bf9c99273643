/** Longest wait for a state, in ms; a test that gets there has failed. */
const PATIENCE = 15_000;

/** Waits until `isSo`, looking again after each turn of the event loop; rejects with `what` when it takes too long. */
export async function until(what: string, isSo: () => boolean, patience = PATIENCE): Promise<void> {
  const end = performance.now() + patience;
  while (!isSo()) {
    if (performance.now() > end) throw new Error(`waited in vain: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 2));
  }
}
