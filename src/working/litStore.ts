/** What a worked line speaks of, by the circuit's names. */
export type Lit = { readonly parts: readonly string[]; readonly nodes: readonly string[] };

/** What is lit on the drawing just now: apart from React's state, so that a pointer over the lines moves only the light. */
export type LitStore = {
  readonly get: () => Lit | null;
  readonly set: (lit: Lit | null) => void;
  readonly subscribe: (listener: () => void) => () => void;
};

export function litStore(): LitStore {
  let lit: Lit | null = null;
  const listeners = new Set<() => void>();
  return {
    get: () => lit,
    set: (next) => {
      if (next === lit) return;
      lit = next;
      for (const listener of listeners) listener();
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
