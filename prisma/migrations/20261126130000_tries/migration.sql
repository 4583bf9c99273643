-- AlterTable
ALTER TABLE "Room" ADD COLUMN "parentId" INTEGER CONSTRAINT "Room_parentId_fkey" REFERENCES "Room" ("id") ON DELETE CASCADE ON UPDATE CASCADE;

-- AlterTable
ALTER TABLE "Room" ADD COLUMN "owner" TEXT;

-- AlterTable
ALTER TABLE "Room" ADD COLUMN "progress" TEXT;

-- CreateIndex
CREATE UNIQUE INDEX "Room_parentId_owner_key" ON "Room"("parentId", "owner");
