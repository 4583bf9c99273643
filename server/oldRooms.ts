import { appendFileSync } from "node:fs";
import { join } from "node:path";
import { derivedInstructorKey, hashOfKey, instructorPath } from "./access";
import type { RoomDirectory } from "./history";

/**
 * Gives each room from before there were instructor's links one that follows from the server's secret. Such a room stays
 * open: everyone may draw and all answers are shown, until somebody who has its link changes that. Gives the links, as
 * paths; each is given once.
 */
export async function giveLinks(directory: RoomDirectory, secret: Uint8Array): Promise<readonly string[]> {
  const links: string[] = [];
  for (const room of await directory.keyless()) {
    const key = derivedInstructorKey(secret, room);
    await directory.setKey(room, hashOfKey(key));
    links.push(instructorPath(room, key));
  }
  return links;
}

/** Keeps links, one a line behind `url`, in the file `instructor-links.txt` of the data folder; gives its path. */
export function keepLinks(links: readonly string[], url: string, folder: string): string {
  const path = join(folder, "instructor-links.txt");
  appendFileSync(path, links.map((link) => `${url}${link}\n`).join(""), { mode: 0o600 });
  return path;
}
