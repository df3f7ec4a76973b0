import type { DamagedSession } from "../../shared/api/care.ts";
import type { Voice } from "./words.ts";

/** What sentences on a damaged session name: whose it is, of when, and how many entries cannot be read. */
export const damageValues = (
  { formats }: Pick<Voice, "formats">,
  { groupName: group, day, entries }: Omit<DamagedSession, "sessionId">,
) => ({ group, day: formats.fullDay(day), entries });

/** What cannot be read of a session: some of its entries, or the plan, and with it everything. */
export function wordDamage(voice: Voice, session: Omit<DamagedSession, "sessionId">): string {
  const id = session.entries === 0 ? "care.damaged.plan" : "care.damaged.entries";
  return voice.say(id, damageValues(voice, session));
}
