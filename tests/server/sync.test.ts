import { afterEach, expect, it } from "vitest";
import { joinStock, type StockClient } from "./support/stockClient";
import { startTestServer, type TestServer } from "./support/testServer";
import { until } from "./support/until";

let server: TestServer;
const clients: StockClient[] = [];

async function join(room: string): Promise<StockClient> {
  const client = await joinStock(server.url, room);
  clients.push(client);
  return client;
}

afterEach(async () => {
  for (const client of clients.splice(0)) client.leave();
  await server.stop();
});

it("brings what one stock client writes to another, both ways", async () => {
  server = await startTestServer();
  const [ann, bob] = [await join("algebra"), await join("algebra")];
  ann.board.set("R1", "3.3k");
  bob.board.set("R2", "4.7k");
  await until("both have both", () => ann.board.size === 2 && bob.board.size === 2);
  expect(ann.board.toJSON()).toEqual({ R1: "3.3k", R2: "4.7k" });
  expect(bob.board.toJSON()).toEqual(ann.board.toJSON());
});
