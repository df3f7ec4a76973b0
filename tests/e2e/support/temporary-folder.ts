import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const made: string[] = [];

process.on("exit", () => {
  for (const path of made) {
    // A file that a system still holds for a moment is tried again.
    rmSync(path, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  }
});

/** A fresh data folder that goes away with this process; a test that is done with it sooner may remove it. */
export function temporaryFolder(): string {
  const path = mkdtempSync(join(tmpdir(), "pebblechime-test-"));
  made.push(path);
  return path;
}
