import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** A fresh data folder and how to remove it; a Windows file that is still held is tried again. */
export function temporaryFolder(): { readonly path: string; remove(): void } {
  const path = mkdtempSync(join(tmpdir(), "pebblechime-test-"));
  return {
    path,
    remove: () => rmSync(path, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 }),
  };
}
