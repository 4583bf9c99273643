/** What a worked line speaks of, by the circuit's names. */
export type Lit = { readonly parts: readonly string[]; readonly nodes: readonly string[] };

/** What is lit on the drawing just now: apart from React's state, so that a pointer over the lines moves only the light. */
export type LitStore = {
  readonly get: () => Lit | null;
  readonly set: (lit: Lit | null) => void;
  /** Lights something, and gives the way to take that light back, unless something else has been lit since. */
  readonly light: (lit: Lit) => () => void;
  readonly subscribe: (listener: () => void) => () => void;
};

export function litStore(): LitStore {
  let lit: Lit | null = null;
  const listeners = new Set<() => void>();
  const set = (next: Lit | null) => {
    if (next === lit) return;
    lit = next;
    for (const listener of listeners) listener();
  };
  return {
    get: () => lit,
    set,
    light: (own) => {
      set(own);
      return () => {
        if (lit === own) set(null);
      };
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
