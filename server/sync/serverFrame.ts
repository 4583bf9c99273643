import * as encoding from "lib0/encoding";

/** The frames of y-protocols that the server writes. */

/** Asks a client for what `stateVector` lacks. */
export const askStateFrame = (stateVector: Uint8Array): Uint8Array => frame([0, 0], stateVector);
/** Answers a client's question: all that its state vector lacked. */
export const stateFrame = (update: Uint8Array): Uint8Array => frame([0, 1], update);
export const updateFrame = (update: Uint8Array): Uint8Array => frame([0, 2], update);
export const awarenessFrame = (update: Uint8Array): Uint8Array => frame([1], update);

/** Says nothing about nobody; a stock client gives a connection up that has been silent for 30 s. */
export const SIGN_OF_LIFE: Uint8Array = awarenessFrame(Uint8Array.of(0));

function frame(types: readonly number[], bytes: Uint8Array): Uint8Array {
  const encoder = encoding.createEncoder();
  for (const type of types) encoding.writeVarUint(encoder, type);
  encoding.writeVarUint8Array(encoder, bytes);
  return encoding.toUint8Array(encoder);
}
