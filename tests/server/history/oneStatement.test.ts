import { join } from "node:path";
import { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import { afterAll, expect, it } from "vitest";
import { openDatabase } from "../../../server/database";
import { PrismaClient } from "../../../server/generated/prisma/client";
import { PrismaDirectory, PrismaHistory } from "../../../server/history";
import { MIGRATIONS, removeFolders, temporaryFolder } from "../support/database";

afterAll(removeFolders);

/** An adapter whose connections open no transaction. */
class WithoutTransactions extends PrismaBetterSqlite3 {
  override async connect() {
    const connection = await super.connect();
    connection.startTransaction = () => Promise.reject(new Error("a transaction was opened"));
    return connection;
  }
}

const entry = (room: string, sequence: number) => {
  return { room, sequence, time: 5, participant: "ann", kind: "update", bytes: Uint8Array.of(sequence) };
};

it("no verb of history and directory opens a transaction, into which what others store meanwhile would fall", async () => {
  const url = `file:${join(temporaryFolder(), "addend.db")}`;
  await (await openDatabase(url, MIGRATIONS)).$disconnect();
  const client = new PrismaClient({ adapter: new WithoutTransactions({ url }) });
  const [history, directory] = [new PrismaHistory(client), new PrismaDirectory(client)];
  await directory.create("a", "key");
  await history.append([entry("a", 1), entry("b", 1)]);
  await history.append([entry("a", 1), entry("a", 2)]);
  for (const sequence of [2, 2, 1]) {
    await history.writeSnapshot({ room: "a", sequence, time: 5, bytes: Uint8Array.of(1), thin: null, access: "{}" });
  }
  await history.putWhole(
    [entry("c", 1)],
    [{ room: "c", sequence: 1, time: 5, bytes: Uint8Array.of(1), thin: null, access: null }],
  );
  await history.dropSnapshot("a", 1);
  for (const room of ["a", "c"]) await history.load(room);
  await directory.setKey("a", "other");
  await directory.createTry("t", "a", "ann");
  for (const lastSeen of [1, 2]) await directory.noteVisit("ann", "a", { title: "", role: "learner", lastSeen });
  await directory.noteVisit("ann", "a", null);
  const { id } = await directory.addLink("a", "hash", 5, 6);
  expect(await directory.revokeLink("a", id, 7)).toBe(true);
  expect(await directory.links("a")).toEqual([{ id, madeAt: 5, until: 6, isRevoked: true }]);
  await directory.setRetention("a", { keep: "days", days: 3 });
  expect(await directory.overdue(1e12)).toEqual(["a"]);
  expect(await history.snapshotsOf("a")).toEqual([2]);
  for (const room of ["a", "b", "c"]) await history.erase(room);
  expect(await directory.find("a")).toBeNull();
  await history.close();
});
