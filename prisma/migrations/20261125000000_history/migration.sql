-- CreateTable
CREATE TABLE "Room" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "name" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP
);

-- CreateTable
CREATE TABLE "HistoryEntry" (
    "roomId" INTEGER NOT NULL,
    "sequence" INTEGER NOT NULL,
    "time" DATETIME NOT NULL,
    "participant" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "bytes" BLOB NOT NULL,

    PRIMARY KEY ("roomId", "sequence"),
    CONSTRAINT "HistoryEntry_roomId_fkey" FOREIGN KEY ("roomId") REFERENCES "Room" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Snapshot" (
    "roomId" INTEGER NOT NULL,
    "sequence" INTEGER NOT NULL,
    "time" DATETIME NOT NULL,
    "bytes" BLOB NOT NULL,

    PRIMARY KEY ("roomId", "sequence"),
    CONSTRAINT "Snapshot_roomId_fkey" FOREIGN KEY ("roomId") REFERENCES "Room" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateIndex
CREATE UNIQUE INDEX "Room_name_key" ON "Room"("name");
