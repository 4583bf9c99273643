/** What a room may be called: the part of its address after /room/. */
const ROOM_NAME = /^[A-Za-z0-9][A-Za-z0-9_-]{0,63}$/;

export function isRoomName(text: string): boolean {
  return ROOM_NAME.test(text);
}

export const ROOM_NAME_RULE =
  "The address of a room ends in its code, six letters and digits such as k7m2xq. Whoever started the room has it.";
