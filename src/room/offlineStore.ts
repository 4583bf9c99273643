import type * as Y from "yjs";

/** What a browser keeps of a room's document between visits, and while the room cannot be reached. */
export type OfflineStore = {
  /** Resolves when what was kept is in the document: true, or false where this browser keeps nothing. */
  readonly whenLoaded: Promise<boolean>;
  /** Drops what is kept, for good: no later visit reads it again. */
  readonly forget: () => void;
  readonly close: () => void;
};

/**
 * Loads what is kept of the room into `doc`, and keeps every change of it from then on. Two pages of one browser may
 * keep the same room at once.
 */
export function openOfflineStore(room: string, doc: Y.Doc): OfflineStore {
  let isClosed = false;
  const opening = openPersistence(room, doc);
  const close = () => {
    isClosed = true;
    void opening.then((persistence) => persistence?.destroy());
  };
  return {
    whenLoaded: opening.then(async (persistence) => {
      if (!persistence || isClosed) return false;
      await persistence.whenSynced;
      return true;
    }),
    forget: () => {
      // Deleting waits for other pages that have the database open, and they go on writing; the next one has another
      // name, so that what they write is not read again.
      startNextVolume(room);
      void opening.then((persistence) => (persistence ? persistence.clearData() : undefined));
    },
    close,
  };
}

async function openPersistence(room: string, doc: Y.Doc) {
  if (!(await canKeep())) return null;
  const { IndexeddbPersistence } = await import("y-indexeddb");
  return new IndexeddbPersistence(`addend-room-${room}-${volumeOf(room)}`, doc);
}

/** Whether the browser lets this page open databases; private windows of some do not. */
function canKeep(): Promise<boolean> {
  return new Promise((resolve) => {
    try {
      const request = window.indexedDB.open("addend-probe");
      request.onerror = () => resolve(false);
      request.onblocked = () => resolve(false);
      request.onsuccess = () => {
        request.result.close();
        resolve(true);
      };
    } catch {
      resolve(false);
    }
  });
}

const volumeKey = (room: string) => `addend-volume-${room}`;

/** Which of the room's databases is the one in use; the first is 0. */
function volumeOf(room: string): number {
  return Number(window.localStorage.getItem(volumeKey(room)) ?? 0);
}

function startNextVolume(room: string): void {
  window.localStorage.setItem(volumeKey(room), String(volumeOf(room) + 1));
}
