import { connect, type Socket } from "node:net";
import { afterEach, describe, expect, it, vi } from "vitest";
import { ENTRY, type HistoryEntry, MemoryHistory } from "../../server/history";
import { joinRaw, refusedUpgrade } from "./support/rawClient";
import { joinStock } from "./support/stockClient";
import { startTestServer, type TestServer } from "./support/testServer";
import { until } from "./support/until";

vi.setConfig({ testTimeout: 30_000 });

let server: TestServer;
let socket: Socket | null = null;

afterEach(() => {
  socket?.destroy();
});

async function openSocket(text: string): Promise<Socket> {
  const opened = connect({ port: server.port, host: "127.0.0.1", allowHalfOpen: true });
  opened.on("error", () => {});
  await new Promise((resolve) => opened.once("connect", resolve));
  await new Promise((resolve) => opened.write(text, resolve));
  return opened;
}

describe("a stop", () => {
  it("tells everybody in a room that it is one, and stores what they sent", async () => {
    const store = new MemoryHistory();
    server = await startTestServer({ store });
    const ann = await joinStock(server.url, "algebra");
    const bob = await joinStock(server.url, "algebra");
    ann.board.set("R1", "3.3k");
    await until("it is passed on", () => bob.board.size === 1);
    let code = 0;
    ann.provider.on("connection-close", (event) => {
      code = event?.code ?? 0;
    });
    expect(await server.stop()).toBe(0);
    await until("ann is told", () => code !== 0);
    expect(code).toBe(1001);
    expect(store.entries.filter(({ kind }) => kind === ENTRY.update)).toHaveLength(1);
    ann.leave();
    bob.leave();
  });

  it("takes nobody any more while it stores", async () => {
    class SlowHistory extends MemoryHistory {
      override append(entries: readonly HistoryEntry[]): Promise<void> {
        return entries.some(({ kind }) => kind === ENTRY.update) ? new Promise(() => {}) : super.append(entries);
      }
    }
    server = await startTestServer({ store: new SlowHistory(), limits: { stopTime: 300 } });
    const ann = await joinStock(server.url, "algebra");
    const raw = await joinRaw(server.url, "algebra");
    ann.board.set("R1", "3.3k");
    ann.provider.awareness.setLocalStateField("name", "Ann");
    await until("the change has arrived", () => raw.frames.some(([type, length]) => type === 1 && (length ?? 0) > 1));
    const stopped = server.stop();
    await expect(refusedUpgrade(`${server.url}/algebra`)).rejects.toThrow();
    // The change, and that both left.
    expect(await stopped).toBe(3);
    ann.leave();
  });

  // What each of them says before it falls silent.
  it.each([
    ["nothing", ""],
    ["half a request", "GET / HTTP/1.1\r\nHost: x"],
    [
      "an upgrade that nobody answers",
      "GET /pages HTTP/1.1\r\nHost: x\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n\r\n",
    ],
  ])("isn't kept from its end by a socket that says %s and stays open", async (_, text) => {
    let isUpgrading = false;
    const upgrade = () => {
      isUpgrading = true;
    };
    server = await startTestServer({ pages: { upgrade } });
    socket = await openSocket(text);
    // A request of another connection shows that the server has seen the first.
    await fetch(`http://127.0.0.1:${server.port}/health`);
    if (text.includes("Upgrade")) await until("the upgrade was asked for", () => isUpgrading);
    expect(await server.stop()).toBe(0);
  });
});
