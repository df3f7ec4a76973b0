import { defineConfig } from "vitest/config";

// One project per layer, fastest first; `npm test` runs them in this order.
const isolated = process.env.PEBBLECHIME_ISOLATED !== undefined;

const layer = (
  name: string,
  options: {
    timeout?: number;
    workers?: number;
    setup?: string;
    shared?: boolean;
    retry?: number;
    oneBrowser?: boolean;
    pollMs?: number;
  } = {},
) => ({
  extends: true as const,
  test: {
    name,
    include: [`tests/${name}/**/*.test.ts`, `tests/${name}/**/*.test.tsx`],
    testTimeout: options.timeout ?? 10_000,
    hookTimeout: options.timeout ?? 10_000,
    ...(options.workers === undefined ? {} : { maxWorkers: options.workers }),
    ...(options.retry === undefined ? {} : { retry: options.retry }),
    // Pure code leaves nothing behind, so its files can share threads; a release runs them apart.
    ...(options.shared === true && !isolated ? { isolate: false, pool: "threads" as const } : {}),
    // Journeys leave their state in apps that end with each; their files can share a process and its browser.
    ...(options.oneBrowser === true && !isolated ? { isolate: false } : {}),
    ...(options.setup === undefined ? {} : { setupFiles: [options.setup] }),
    // What is polled comes when a busy machine gets to it; a second, which is the default, is no limit for that.
    ...(options.pollMs === undefined ? {} : { expect: { poll: { timeout: options.pollMs } } }),
  },
});

export default defineConfig({
  test: {
    projects: [
      // A limit finds what hangs; beside the journeys all else runs at a fifth of its own pace.
      layer("unit", { timeout: 60_000, shared: true }),
      layer("reference", { timeout: 120_000, shared: true }),
      layer("property", { timeout: 120_000, setup: "tests/setup/property-seed.ts", shared: true }),
      layer("api", { timeout: 60_000, pollMs: 15_000 }),
      // They wait for disks, kills and lost lines more than they compute.
      layer("faults", { timeout: 120_000, pollMs: 15_000, workers: 2 }),
      // Two cores are busy with three; more of them at once take as long, and are late for their own sessions.
      // Their cues come when they come: one that falls between two steps is tried again, and said so.
      layer("e2e", {
        timeout: 240_000,
        workers: 3,
        retry: 2,
        pollMs: 15_000,
        setup: "tests/setup/one-browser.ts",
        oneBrowser: true,
      }),
      // The app in other browsers than its own; skipped, and said so, where they are not installed.
      // These browsers start from nothing beside a busy machine; one that hangs is said so and tried again.
      layer("browsers", { timeout: 180_000, workers: 1, retry: 2 }),
    ],
  },
});
