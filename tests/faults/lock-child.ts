import { type FolderLock, lockFolder } from "../../electron/store/file/folder-lock.ts";
import { StoreError } from "../../electron/store/store.ts";

// Each time it is told to, takes a data folder and says how that went; holds it until it is told to let go.
const [folder = ""] = process.argv.slice(2);
let held: FolderLock | null = null;

function take(): string {
  try {
    held = lockFolder(folder);
    return "opened";
  } catch (error) {
    return error instanceof StoreError ? error.problem : String(error);
  }
}

function letGo(): string {
  held?.release();
  held = null;
  return "let go";
}

process.on("message", (word) => process.send?.(word === "take" ? take() : letGo()));
process.on("disconnect", () => process.exit(0));
