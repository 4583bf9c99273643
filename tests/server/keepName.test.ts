import { afterEach, describe, expect, it } from "vitest";
import { INSTRUCTOR, joinPage, type PageClient } from "./support/pageClient";
import { startTestServer, type TestServer } from "./support/testServer";
import { until } from "./support/until";

let server: TestServer | null = null;
const pages: PageClient[] = [];

afterEach(async () => {
  for (const page of pages.splice(0)) page.leave();
  await server?.stop();
});

async function join(...asked: Parameters<typeof joinPage>): Promise<PageClient> {
  const page = await joinPage(...asked);
  pages.push(page);
  return page;
}

describe("whether replays may call somebody by name", () => {
  it("is so unless they ask otherwise, and is told to nobody but them", async () => {
    server = await startTestServer();
    const ann = await join(server.url, "algebra", { name: "Ann" });
    const bob = await join(server.url, "algebra", { name: "Bob", keepName: false });
    expect([ann.state?.you.isNameKept, bob.state?.you.isNameKept]).toEqual([true, false]);
    expect(JSON.stringify(ann.state?.participants)).not.toContain("isNameKept");
  });

  it("is theirs to say at any time, also once the room has ended", async () => {
    server = await startTestServer();
    const hart = await join(server.url, "algebra", INSTRUCTOR);
    const ann = await join(server.url, "algebra", { name: "Ann" });
    ann.ask({ do: "keepName", keep: false });
    await until("it is told", () => ann.state?.you.isNameKept === false);
    hart.ask({ do: "end" });
    await until("the room has ended", () => ann.state?.isEnded === true);
    ann.ask({ do: "keepName", keep: true });
    await until("it is told", () => ann.state?.you.isNameKept === true);
    expect(hart.state?.you.isNameKept).toBe(true);
  });
});
