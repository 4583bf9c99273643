import { createHash, createHmac, randomBytes, timingSafeEqual } from "node:crypto";

/** The secret of an instructor's link: 128 random bits. Only its hash is kept. */
export function newInstructorKey(): string {
  return randomBytes(16).toString("base64url");
}

/**
 * The key of a room that nobody made through the page (the demo room, and rooms from before there were keys): it follows
 * from the server's secret, so that it can be told again at each start though only its hash is kept.
 */
export function derivedInstructorKey(secret: Uint8Array, room: string): string {
  return createHmac("sha256", secret).update(`instructor ${room}`).digest().subarray(0, 16).toString("base64url");
}

/** As it is kept. The key is random, so that a plain hash tells nothing about it. */
export function hashOfKey(key: string): string {
  return createHash("sha256").update(key).digest("base64url");
}

export function isKeyOf(hash: string, key: string): boolean {
  const [kept, given] = [Buffer.from(hash), Buffer.from(hashOfKey(key))];
  return kept.length === given.length && timingSafeEqual(kept, given);
}

/** The part of an instructor's link behind the server's address. The key is in the fragment, which no browser sends. */
export function instructorPath(room: string, key: string): string {
  return `/room/${room}#key=${key}`;
}
