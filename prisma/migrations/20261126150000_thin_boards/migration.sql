-- AlterTable
ALTER TABLE "Snapshot" ADD COLUMN "thin" BLOB;
