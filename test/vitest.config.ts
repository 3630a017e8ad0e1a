import { defineConfig } from "vitest/config";

export default defineConfig({
  root: new URL("..", import.meta.url).pathname,
  test: {
    include: ["test/**/*.test.ts", "test/**/*.test.tsx"],
    testTimeout: 60_000,
    hookTimeout: 60_000,
    // what a page shows or says a moment later is waited for, as long as a busy machine may take
    expect: { poll: { timeout: 20_000, interval: 100 } },
    pool: "forks",
    maxWorkers: 2,
    // a process reads the modules once for all its files: reading them for each took nearly half of the time. So a test leaves
    // nothing behind that the next would find, and none puts another module in the place of one (`vi.mock`)
    isolate: false,
    restoreMocks: true,
  },
});
