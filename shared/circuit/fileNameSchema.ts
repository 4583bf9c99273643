import * as z from "zod";

/** Longest name of a part, a node or a wanted quantity, in UTF-16 units. */
export const NAME_LIMIT = 64;

const visible = /^[^\s\p{Cc}](?:[^\p{Cc}]*[^\s\p{Cc}])?$/u;

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
