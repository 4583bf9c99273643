import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    // Property tests and servers with real databases are slower than vitest expects on two busy cores; nothing waits
    // for this long but to fail.
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
