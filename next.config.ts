import type { NextConfig } from "next";

const config: NextConfig = {
  reactStrictMode: true,
  // The server that renders the pages holds rooms in the same process, and two copies of yjs do not know each other's types.
  serverExternalPackages: ["yjs"],
  // Type errors are found by `npm run typecheck`, for all folders alike.
  typescript: { ignoreBuildErrors: true },
};

export default config;
