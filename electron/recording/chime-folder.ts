import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/**
 * The folder of the chimes that ship with the app: `assets/chimes` in the nearest folder above this file,
 * which is the app's own whether it runs from source or bundled.
 *
 * @throws Error with a sentence for the teacher when the chimes are missing
 */
export function chimeFolder(): string {
  for (let above = dirname(fileURLToPath(import.meta.url)); ; above = dirname(above)) {
    const folder = join(above, "assets", "chimes");
    if (existsSync(folder)) return folder;
    if (above === dirname(above)) {
      throw new Error("The chimes are missing (assets/chimes); install the app again.");
    }
  }
}
