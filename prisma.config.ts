import { defineConfig } from "prisma/config";

/** Only the Prisma command line reads this; the server takes its database from `ADDEND_DATA` (server/settings.ts). */
export default defineConfig({
  schema: "prisma/schema.prisma",
  migrations: { path: "prisma/migrations" },
  datasource: { url: `file:${process.env.ADDEND_DATA ?? ".data"}/addend.db` },
});
