-- AlterTable
ALTER TABLE "Room" ADD COLUMN "keepDays" INTEGER;

-- AlterTable
ALTER TABLE "Room" ADD COLUMN "keepUntil" DATETIME;

-- CreateTable
CREATE TABLE "ReplayLink" (
    "id" INTEGER NOT NULL PRIMARY KEY AUTOINCREMENT,
    "roomId" INTEGER NOT NULL,
    "hash" TEXT NOT NULL,
    "madeAt" DATETIME NOT NULL,
    "until" DATETIME,
    "revokedAt" DATETIME,
    CONSTRAINT "ReplayLink_roomId_fkey" FOREIGN KEY ("roomId") REFERENCES "Room" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateIndex
CREATE UNIQUE INDEX "ReplayLink_hash_key" ON "ReplayLink"("hash");
