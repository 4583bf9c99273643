import * as z from "zod";

/** Longest name of a part, a node or a wanted quantity, in UTF-16 units. */
export const NAME_LIMIT = 64;

// No \p{Cc}: the pattern goes into the JSON Schema, and not every validator reads patterns as Unicode ones.
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what names must not hold
const visible = /^[^\s\u0000-\u001f\u007f-\u009f](?:[^\u0000-\u001f\u007f-\u009f]*[^\s\u0000-\u001f\u007f-\u009f])?$/;

const name = z.string().max(NAME_LIMIT).regex(visible);

export const partNameSchema = name.meta({
  id: "partName",
  description: "Name of a part, unique in its circuit: R3, V1. No spaces at its ends.",
});

export const nodeNameSchema = name.meta({
  id: "nodeName",
  description: "Name of a node. Terminals that give the same name are joined.",
});

export const wantedNameSchema = name.meta({
  id: "wantedName",
  description: "What people call the wanted quantity: Iy, Vq. One is made where none is given.",
});

/** A field that other programs' and collections' files carry and that says nothing about the circuit. */
export function passedOver(what: string) {
  return z
    .unknown()
    .optional()
    .meta({ description: `Passed over: ${what}` });
}
