import type { Awareness } from "y-protocols/awareness";
import { type Presence, presenceFields } from "./presence";

/** Shows the others what this page's person does. */
export type PresenceSender = {
  readonly show: (shown: Partial<Presence>) => void;
  /** Sends what is waiting, and nothing any more. */
  readonly close: () => void;
};

/** Least time between two updates, in ms: 20 a second at most. */
const INTERVAL = 50;

/**
 * A sender that gathers what changes within {@link INTERVAL} into one update: the first goes at once, so that a single
 * change is not held back.
 */
export function presenceSender(awareness: Awareness): PresenceSender {
  let waiting: Partial<Presence> | null = null;
  let timer: ReturnType<typeof setTimeout> | null = null;
  const send = () => {
    if (waiting) awareness.setLocalState({ ...awareness.getLocalState(), ...presenceFields(waiting) });
    timer = waiting ? setTimeout(send, INTERVAL) : null;
    waiting = null;
  };
  return {
    show: (shown) => {
      waiting = { ...waiting, ...shown };
      if (timer === null) send();
    },
    close: () => {
      if (timer !== null) clearTimeout(timer);
      timer = null;
      if (waiting) send();
      if (timer !== null) clearTimeout(timer);
    },
  };
}
