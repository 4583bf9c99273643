/** What this browser remembers for its person: their name, the keys of rooms they instruct, rooms they are in. */
const NAME = "addend-name";
const keyOf = (room: string) => `addend-key-${room}`;
const tryOf = (room: string) => `addend-try-${room}`;
const insideOf = (room: string) => `addend-inside-${room}`;

export function rememberedName(): string {
  return read(NAME) ?? "";
}

export function rememberName(name: string): void {
  write(NAME, name);
}

/** The instructor's key of a room, null where this browser was never told it. */
export function rememberedKey(room: string): string | null {
  return read(keyOf(room));
}

export function rememberKey(room: string, key: string): void {
  write(keyOf(room), key);
}

/** The name of one's own try of a room's problem, null where this browser has opened none. */
export function rememberedTry(room: string): string | null {
  return read(tryOf(room));
}

export function rememberTry(room: string, name: string): void {
  write(tryOf(room), name);
}

/** Whether this browser was let into the room, so that it may show what it kept of it while nobody can be asked. */
export function wasInside(room: string): boolean {
  return read(insideOf(room)) !== null;
}

export function rememberInside(room: string, isInside: boolean): void {
  if (isInside) write(insideOf(room), "yes");
  else window.localStorage.removeItem(insideOf(room));
}

// Some browsers refuse storage altogether; then nothing is remembered, and all else works.
function read(key: string): string | null {
  try {
    return window.localStorage.getItem(key);
  } catch {
    return null;
  }
}

function write(key: string, value: string): void {
  try {
    window.localStorage.setItem(key, value);
  } catch {}
}
