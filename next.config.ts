import type { NextConfig } from "next";

/** A page is shown in no other site's frame, sends no room's code along to other sites, and is taken for what it says it is. */
const SAFE_HEADERS = [
  {
    key: "Content-Security-Policy",
    value: "frame-ancestors 'self'; object-src 'none'; base-uri 'self'; form-action 'self'",
  },
  { key: "Referrer-Policy", value: "same-origin" },
  { key: "X-Content-Type-Options", value: "nosniff" },
];

const config: NextConfig = {
  reactStrictMode: true,
  // The server that renders the pages holds rooms in the same process, and two copies of yjs do not know each other's types.
  serverExternalPackages: ["yjs"],
  // No pictures are scaled here, so nobody is to have the server fetch any.
  images: { unoptimized: true },
  poweredByHeader: false,
  async headers() {
    return [{ source: "/:path*", headers: SAFE_HEADERS }];
  },
  // Type errors are found by `npm run typecheck`, for all folders alike.
  typescript: { ignoreBuildErrors: true },
};

export default config;
