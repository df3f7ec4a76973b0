import { resolve } from "node:path";
import envPaths from "env-paths";

/**
 * Where everything is kept, for either host: `Pebblechime` in the place that the system has for an
 * application's data, or the folder that was asked for.
 * @param asked a path given with --data, relative to the working directory, or null
 */
export function dataFolder(asked: string | null): string {
  return asked === null ? envPaths("Pebblechime", { suffix: "" }).data : resolve(asked);
}
