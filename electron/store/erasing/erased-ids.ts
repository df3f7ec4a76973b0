import { createHash, randomBytes } from "node:crypto";
import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type Database from "better-sqlite3";
import { z } from "zod";
import { renameDurably } from "../../files/durable-file.ts";
import { withStoreErrors } from "../file/store-error.ts";
import { hasTable } from "./has-table.ts";

// Beside the database, because a restored file knows nothing of what was erased after it was copied. Ids
// only, hashed with a salt of the folder's own: who was erased cannot be told from it.

const erasedSchema = z.strictObject({
  salt: z.string().regex(/^[0-9a-f]{32}$/),
  hashes: z.array(z.string().regex(/^[0-9a-f]{64}$/)),
});
type ErasedFile = z.infer<typeof erasedSchema>;

const pathIn = (folder: string): string => join(folder, "erased.json");

/** Notes that a student, or a group, was erased, so that no restored file brings them back. On the disk at return. */
export function rememberErased(folder: string, id: string): void {
  const file = read(folder) ?? { salt: randomBytes(16).toString("hex"), hashes: [] };
  const hash = hashOf(file.salt, id);
  if (!file.hashes.includes(hash)) write(folder, { ...file, hashes: [...file.hashes, hash] });
}

/** Takes the note back: the erasure did not happen. */
export function forgetErased(folder: string, id: string): void {
  const file = read(folder);
  if (file === null) return;
  const hash = hashOf(file.salt, id);
  write(folder, { ...file, hashes: file.hashes.filter((each) => each !== hash) });
}

/** Ids of the students or groups in a database who were erased from this folder once. */
export function erasedAmong(
  database: Database.Database,
  folder: string,
  table: "student" | "student_group",
): string[] {
  const file = read(folder);
  if (file === null || file.hashes.length === 0) return [];
  const hashes = new Set(file.hashes);
  if (!hasTable(database, table)) return [];
  const ids = database.prepare<[], string>(`SELECT id FROM ${table}`).pluck().all();
  return ids.filter((id) => hashes.has(hashOf(file.salt, id)));
}

const hashOf = (salt: string, id: string): string =>
  createHash("sha256").update(salt).update(id).digest("hex");

/** Null when there is none, or it cannot be understood: then nothing of it can be applied. */
function read(folder: string): ErasedFile | null {
  return withStoreErrors(() => {
    if (!existsSync(pathIn(folder))) return null;
    try {
      return erasedSchema.parse(JSON.parse(readFileSync(pathIn(folder), "utf8")));
    } catch (error) {
      if (error instanceof SyntaxError || error instanceof z.ZodError) return null;
      throw error;
    }
  });
}

function write(folder: string, file: ErasedFile): void {
  const partial = `${pathIn(folder)}.partial`;
  withStoreErrors(() => {
    rmSync(partial, { force: true });
    writeFileSync(partial, JSON.stringify(file), { mode: 0o600, flag: "wx" });
    renameDurably(partial, pathIn(folder));
  });
}
