import { readFile } from "node:fs/promises";
import { join } from "node:path";

/** Made once, when the pages are built: the worker is a file that browsers load as it is. */
export const dynamic = "force-static";

/** The service worker, at an address from which it may look after all pages. */
export async function GET(): Promise<Response> {
  const script = await readFile(join(process.cwd(), "app/offline.js/worker.js"), "utf8");
  return new Response(script, { headers: { "content-type": "text/javascript; charset=utf-8" } });
}
