import type { Pages } from "./addendServer";

/** The pages of app/, built beforehand by `next build`, or in development compiled as they are asked for. */
export async function nextPages(isDevelopment: boolean, hostname: string, port: number): Promise<Pages> {
  // Next and React choose their build by NODE_ENV when they are loaded.
  Object.assign(process.env, {
    NODE_ENV: isDevelopment ? "development" : "production",
    NEXT_TELEMETRY_DISABLED: "1",
  });
  const { default: next } = await import("next");
  const app = next({ dev: isDevelopment, hostname, port });
  await app.prepare();
  const handle = app.getRequestHandler();
  const pages: Pages = { handle: (request, response) => void handle(request, response) };
  // Next listens for upgrades itself, from its first request on: for its reloading in development, and it leaves alone
  // what belongs to no page, such as /sync/<room>. So in development ours are not to be refused, and not handled twice.
  return isDevelopment ? { ...pages, upgrade: () => {} } : pages;
}
