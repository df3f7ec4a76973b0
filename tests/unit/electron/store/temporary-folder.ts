import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach } from "vitest";
import { openStore, type Store } from "../../../../electron/store/store.ts";

const folders: string[] = [];
const stores: Store[] = [];

afterEach(() => {
  for (const store of stores.splice(0)) store.close();
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A folder that goes away after the test. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "pebblechime-test-"));
  folders.push(folder);
  return folder;
}

/** 2 March 2026, 10:00 UTC: a Monday in term. */
export const monday = Date.UTC(2026, 2, 2, 10);

/** A store on real SQLite that is closed after the test. */
export function temporaryStore(folder = temporaryFolder(), now = () => monday): Store {
  const store = openStore({ folder, now });
  stores.push(store);
  return store;
}
