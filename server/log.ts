/** Where the server tells whoever runs it what went wrong. */
export type Log = { readonly warn: (message: string, cause?: unknown) => void };

export const CONSOLE_LOG: Log = {
  warn(message, cause) {
    const why = cause instanceof Error ? `: ${cause.message}` : "";
    console.warn(`${new Date().toISOString()} ${message}${why}`);
  },
};
