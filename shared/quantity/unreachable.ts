/** For the end of a switch over a union: a new member fails to compile here. Throws where types were cheated. */
export function unreachable(value: never): never {
  throw new TypeError(`unreachable: ${JSON.stringify(value)}`);
}
