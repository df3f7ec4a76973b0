import Database from "better-sqlite3";

/** Why the store could not do what was asked. */
export const storeProblems = [
  "folder-taken",
  "foreign",
  "newer",
  "damaged",
  "entry-damaged",
  "full",
  "read-only",
  "reading-only",
  "busy",
  "failed",
] as const;
export type StoreProblem = (typeof storeProblems)[number];

const sentences: Readonly<Record<StoreProblem, string>> = {
  "folder-taken":
    "Pebblechime is already running with this data folder. Use the window that is open, or close it first.",
  foreign:
    "The file in the data folder was made by another program. Move it away or choose another data folder.",
  newer:
    "This data was saved by a newer version of Pebblechime. Install the newest version to open it.",
  damaged:
    "The data file is damaged. Nothing was changed. Restore the latest backup to go on; the damaged file will be kept beside it.",
  "entry-damaged":
    "Part of this session's record is damaged and cannot be read. In Settings, choose to continue without the damaged entries, or restore a backup from before the damage.",
  full: "The disk is full, so nothing more can be saved. Make some space, then try again.",
  "read-only":
    "Pebblechime cannot write to the data folder. Check that you may change files there and that the disk is not locked.",
  "reading-only":
    "Pebblechime is open for reading only, so nothing can be saved. Fix what its notice says, then open it again.",
  busy: "Another program is using the data file. Close it, then try again.",
  failed:
    "The data could not be saved or read. Try again; if it happens again, restart Pebblechime.",
};

/** What failed in the store, as a code, a sentence for a teacher and, for damage, a way out. */
export class StoreError extends Error {
  readonly problem: StoreProblem;
  /** Newest backup that passed its checks, offered when the data file is damaged; else null. */
  readonly backup: string | null;

  constructor(problem: StoreProblem, options: { cause?: unknown; backup?: string | null } = {}) {
    super(sentences[problem], { cause: options.cause });
    this.name = "StoreError";
    this.problem = problem;
    this.backup = options.backup ?? null;
  }
}

const byCode: readonly (readonly [prefix: string, problem: StoreProblem])[] = [
  ["SQLITE_FULL", "full"],
  ["SQLITE_READONLY", "read-only"],
  ["SQLITE_CANTOPEN", "read-only"],
  ["SQLITE_PERM", "read-only"],
  ["SQLITE_AUTH", "read-only"],
  ["EROFS", "read-only"],
  ["EACCES", "read-only"],
  ["EPERM", "read-only"],
  // The folder is a file, or is inside one; or no folder can be made there.
  ["ENOTDIR", "read-only"],
  ["EEXIST", "read-only"],
  ["EISDIR", "read-only"],
  ["ERR_FS_EISDIR", "read-only"],
  ["ENOENT", "read-only"],
  ["ENAMETOOLONG", "read-only"],
  ["ELOOP", "read-only"],
  ["EINVAL", "read-only"],
  ["ENOSPC", "full"],
  ["EDQUOT", "full"],
  ["EIO", "failed"],
  ["EMFILE", "failed"],
  ["ENFILE", "failed"],
  ["EBUSY", "busy"],
  // The log's index, 32 KiB beside the data file, found no room.
  ["SQLITE_IOERR_SHMSIZE", "full"],
  ["SQLITE_CORRUPT", "damaged"],
  ["SQLITE_NOTADB", "damaged"],
  ["SQLITE_BUSY", "busy"],
  ["SQLITE_LOCKED", "busy"],
  ["SQLITE_", "failed"],
];

function codeOf(cause: unknown): string | null {
  if (cause instanceof Database.SqliteError) return cause.code;
  if (cause instanceof Error && "code" in cause && typeof cause.code === "string") {
    return cause.code;
  }
  return null;
}

/**
 * Turns a failure of SQLite or of the file system into a StoreError. Whatever else was thrown is a
 * mistake in the program or a refusal of a service and comes back unchanged.
 */
export function toStoreError(cause: unknown): unknown {
  if (cause instanceof StoreError) return cause;
  const code = codeOf(cause);
  if (code === null) return cause;
  const known = byCode.find(([prefix]) => code.startsWith(prefix));
  return known === undefined ? cause : new StoreError(known[1], { cause });
}

/** Runs `work`; a failure of SQLite or of the file system leaves as a StoreError. */
export function withStoreErrors<Result>(work: () => Result): Result {
  try {
    return work();
  } catch (cause) {
    throw toStoreError(cause);
  }
}

/** Runs work and tells its failures as StoreErrors. */
export type Attempt = <Result>(work: () => Result) => Result;

/** The same of data that was opened for reading only: what cannot be written has that reason. */
export const attemptToRead: Attempt = (work) => {
  try {
    return withStoreErrors(work);
  } catch (error) {
    if (!(error instanceof StoreError) || error.problem !== "read-only") throw error;
    throw new StoreError("reading-only", { cause: error });
  }
};

/** The same repository, with failures of SQLite told as StoreErrors. */
export function guarded<Repository extends object>(
  repository: Repository,
  attempt: Attempt = withStoreErrors,
): Repository {
  const entries = Object.entries(repository).map(([name, member]) => [
    name,
    typeof member === "function"
      ? (...values: unknown[]) => attempt(() => member(...values))
      : member,
  ]);
  // Object.fromEntries forgets the names; they are those of the repository it was made from.
  return Object.fromEntries(entries) as Repository;
}
