-- AlterTable
ALTER TABLE "Room" ADD COLUMN "keyHash" TEXT;

-- AlterTable
ALTER TABLE "Snapshot" ADD COLUMN "access" TEXT;

-- CreateTable
CREATE TABLE "Visit" (
    "participant" TEXT NOT NULL,
    "roomId" INTEGER NOT NULL,
    "title" TEXT NOT NULL,
    "role" TEXT NOT NULL,
    "lastSeen" DATETIME NOT NULL,

    PRIMARY KEY ("participant", "roomId"),
    CONSTRAINT "Visit_roomId_fkey" FOREIGN KEY ("roomId") REFERENCES "Room" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);
