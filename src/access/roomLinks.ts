export function roomPath(room: string): string {
  return `/room/${room}`;
}

/** The page of a learner's own try of a room's problem; without a name it is that of whoever opens it. */
export function tryPath(room: string, ownTry: string | null = null): string {
  return `${roomPath(room)}/try${ownTry === null ? "" : `/${ownTry}`}`;
}

/** The address that lets learners in. */
export function learnerLink(room: string, origin: string): string {
  return new URL(`/room/${room}`, origin).href;
}

/** The address that makes whoever opens it an instructor. What stands behind # is never sent to any server. */
export function instructorLink(room: string, key: string, origin: string): string {
  return new URL(`/room/${room}#key=${key}`, origin).href;
}

/** The key in the fragment of an instructor's link, null in any other. */
export function keyInFragment(fragment: string): string | null {
  return /^#key=([\w-]+)$/.exec(fragment)?.[1] ?? null;
}

/**
 * The code of a room in what somebody typed or pasted: the code itself in either case, with spaces or hyphens, or the
 * whole link. Null where it can be no room's.
 */
export function readRoomCode(text: string): { readonly room: string; readonly key: string | null } | null {
  const typed = text.trim();
  const [, linked, fragment = ""] = /\/room\/([\w-]+)\/?(#.*)?$/.exec(typed) ?? [];
  if (linked) return { room: linked, key: keyInFragment(fragment) };
  const code = typed.replaceAll(/[\s-]+/g, "").toLowerCase();
  return /^[a-z0-9]{1,64}$/.test(code) ? { room: code, key: null } : null;
}
