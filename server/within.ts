/** What a promise gives, or "late" where that takes longer than `patience` ms; then nobody waits for it any more. */
export async function within<T>(work: Promise<T>, patience: number): Promise<T | "late"> {
  let timer: NodeJS.Timeout | null = null;
  const late = new Promise<"late">((resolve) => {
    timer = setTimeout(() => resolve("late"), patience);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    if (timer) clearTimeout(timer);
  }
}
