import { eq } from "drizzle-orm";
import { z } from "zod";
import { type Settings, settingsSchema } from "../../shared/api/app.ts";
import { firstPlan } from "../../shared/plan/plan.ts";
import type { Connection } from "./connection.ts";
import { inTransaction } from "./file/in-transaction.ts";
import { readableJson } from "./file/stored-json.ts";
import { setting } from "./tables.ts";

/** What holds until the teacher chooses otherwise. */
export const firstSettings: Settings = {
  language: "en",
  theme: "system",
  soundChecked: false,
  paper: "region",
  seatsInRow: {},
  picturesOnly: [],
  singleKeys: true,
  points: true,
  worryContact: "",
  newsSeen: null,
  reminderSound: false,
  chime: firstPlan.chime,
  volume: firstPlan.volume,
  seats: false,
  pocketNames: false,
};

/** Kept beside the choices and never among them: no page is told it. */
const codeName = "class-screen-code";

/** Until which day the teacher keeps archived groups, by group id; said through the groups, not as a choice. */
const keptName = "kept-until";
const keptSchema = z.record(z.uuidv7(), z.iso.date());

/** The teacher's choices about the app itself, one row each. */
export function settingsRepository({ bare, typed }: Connection) {
  function get(): Settings {
    const rows = typed.select().from(setting).all();
    const chosen = rows.flatMap(({ name, value }) => {
      const schema = new Map<string, z.ZodType>(Object.entries(settingsSchema.shape)).get(name);
      // A choice that cannot be read is as if it had never been made.
      const read = schema === undefined ? undefined : readableJson(schema, value);
      return read === undefined ? [] : [[name, read]];
    });
    return settingsSchema.parse({ ...firstSettings, ...Object.fromEntries(chosen) });
  }

  function keptUntil(): Readonly<Record<string, string>> {
    const [row] = typed.select().from(setting).where(eq(setting.name, keptName)).all();
    return row === undefined ? {} : (readableJson(keptSchema, row.value) ?? {});
  }

  return {
    get,

    /** The hashed code of the way out of the class screen, or null when there is none. */
    hashedCode(): string | null {
      const [row] = typed.select().from(setting).where(eq(setting.name, codeName)).all();
      return row === undefined ? null : (readableJson(z.string(), row.value) ?? null);
    },

    saveHashedCode(hashed: string | null): void {
      inTransaction(bare, () => {
        typed.delete(setting).where(eq(setting.name, codeName)).run();
        if (hashed === null) return;
        typed
          .insert(setting)
          .values({ name: codeName, value: JSON.stringify(hashed) })
          .run();
      });
    },

    /** The days, YYYY-MM-DD, until which archived groups are kept, by group id. */
    keptUntil,

    /** Keeps a group until a day, or with null until somebody says otherwise. */
    keepUntil(groupId: string, day: string | null): void {
      inTransaction(bare, () => {
        const { [groupId]: _before, ...others } = keptUntil();
        const value = JSON.stringify(day === null ? others : { ...others, [groupId]: day });
        typed
          .insert(setting)
          .values({ name: keptName, value })
          .onConflictDoUpdate({ target: setting.name, set: { value } })
          .run();
      });
    },

    /** Changes what is named and leaves the rest. */
    save(change: Partial<{ [Name in keyof Settings]: Settings[Name] | undefined }>): Settings {
      return inTransaction(bare, () => {
        for (const [name, chosen] of Object.entries(change)) {
          if (chosen === undefined) continue;
          const value = JSON.stringify(chosen);
          typed
            .insert(setting)
            .values({ name, value })
            .onConflictDoUpdate({ target: setting.name, set: { value } })
            .run();
        }
        return get();
      });
    },
  };
}
export type SettingsRepository = ReturnType<typeof settingsRepository>;
