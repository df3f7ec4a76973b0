import type { DailyBackups } from "./backups.ts";
import type { Handlers } from "./base/handlers.ts";

/** How the data is. */
export function careHandlers(backups: DailyBackups): Handlers["care"] {
  return {
    state: () => ({ backup: backups.care() }),
  };
}
