import threeSources from "./three-sources.json";

/** A circuit of our own, as the JSON value of a circuit file; `readCircuitFile` reads it. */
export type Example = { readonly id: string; readonly title: string; readonly json: unknown };

/** The example circuits, in the order in which people meet them. The demo room shows the first. */
export const EXAMPLES: readonly Example[] = [{ id: "three-sources", title: threeSources.title, json: threeSources }];
