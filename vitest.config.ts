import { defineConfig } from "vitest/config";

// One project per layer, fastest first; `npm test` runs them in this order.
const layer = (
  name: string,
  options: { timeout?: number; workers?: number; setup?: string } = {},
) => ({
  extends: true as const,
  test: {
    name,
    include: [`tests/${name}/**/*.test.ts`, `tests/${name}/**/*.test.tsx`],
    testTimeout: options.timeout ?? 10_000,
    hookTimeout: options.timeout ?? 10_000,
    ...(options.workers === undefined ? {} : { maxWorkers: options.workers }),
    ...(options.setup === undefined ? {} : { setupFiles: [options.setup] }),
  },
});

export default defineConfig({
  test: {
    projects: [
      layer("unit"),
      layer("reference", { timeout: 60_000 }),
      layer("property", { timeout: 60_000, setup: "tests/setup/property-seed.ts" }),
      layer("api", { timeout: 30_000 }),
      layer("faults", { timeout: 60_000 }),
      // Journeys wait more than they compute; more of them at once would be late for their own sessions.
      layer("e2e", { timeout: 120_000, workers: 2 }),
    ],
  },
});
