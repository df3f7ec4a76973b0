import { closeSync, fsyncSync, openSync, renameSync } from "node:fs";
import { dirname } from "node:path";

/**
 * Gives a finished file its final name in one step, after its bytes have reached the disk: whoever
 * finds the name finds the whole file.
 */
export function renameDurably(from: string, to: string): void {
  syncPath(from, "r+");
  renameSync(from, to);
  syncFolder(dirname(to));
}

function syncPath(path: string, flags: string): void {
  const file = openSync(path, flags);
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

function syncFolder(folder: string): void {
  // Windows cannot open a folder as a file; there the rename is journalled by the file system.
  if (process.platform !== "win32") syncPath(folder, "r");
}
