import { lockFolder } from "../../electron/store/file/folder-lock.ts";
import { StoreError } from "../../electron/store/store.ts";

// Takes a data folder, says how that went and holds it until it is let go.
const [folder = ""] = process.argv.slice(2);
try {
  lockFolder(folder);
  process.send?.("opened");
} catch (error) {
  process.send?.(error instanceof StoreError ? error.problem : String(error));
}
process.on("disconnect", () => process.exit(0));
