import { existsSync, statSync } from "node:fs";
import { basename, isAbsolute, join, resolve } from "node:path";
import { dataFolder } from "../host/data-folder.ts";
import {
  type Backup,
  databaseName,
  isProvenUseless,
  listBackups,
  newestGoodBackup,
  restoreBackup,
} from "../store/file/backup.ts";
import { type Contents, contentsOf } from "../store/file/contents.ts";
import { StoreError } from "../store/file/store-error.ts";
import { type Command, CommandError } from "./command.ts";
import { readOptions } from "./read-options.ts";

const help = `Usage: cli restore [--data FOLDER] [--list | FILE]

Puts a backup in place of the data file. Close Pebblechime first.

FILE is one of the backups that --list names, or the path of a copy kept elsewhere; without it, the
newest backup that passes its checks is used. What was recorded after the backup is not in it. The file
that is replaced is kept beside it as pebblechime-damaged-TIME.sqlite, with its log, and is deleted
only by you, or when a student is erased.

  --data FOLDER  the data folder; the usual one when left out. Settings shows which
  --list         only say which backups there are and what is in them, newest first
  --help         this text`;

/** Puts a backup back where the app itself cannot be opened, or on a host without windows of its own. */
export const restore: Command = {
  summary: "put a backup in place of the data file, or list the backups",
  help,
  async run(args, output) {
    const { values, positionals } = readOptions("restore", args, {
      data: { type: "string", multiple: true },
      list: { type: "boolean", default: false },
    });
    const folder = oneFolder(values.data ?? []);
    const [asked, ...others] = positionals;
    if (others.length > 0 || (values.list && asked !== undefined)) {
      throw new CommandError("Name one backup, or ask for --list. See cli restore --help.");
    }
    if (values.list) return output.write(`${list(folder).join("\n")}\n`);
    const file = asked === undefined ? newest(folder) : named(folder, asked);
    const kept = attempt(file, () => restoreBackup(folder, file, Date.now()));
    const lines = [`${basename(file)} is the data file now: ${said(contentsOf(file))}.`];
    if (kept !== null) lines.push(`The file it replaced was kept: ${kept}`);
    lines.push("Start Pebblechime as usual.");
    output.write(`${lines.join("\n")}\n`);
  },
};

function oneFolder(given: readonly string[]): string {
  if (given.length > 1) throw new CommandError("--data is given twice; name one folder.");
  const [asked = null] = given;
  if (asked !== null && (asked.trim() === "" || asked.startsWith("--"))) {
    throw new CommandError("--data needs a folder. See cli restore --help.");
  }
  const folder = dataFolder(asked);
  // Opening would make the folder; here a folder that is not there is a slip of the pen.
  if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() === true) return folder;
  throw new CommandError(`There is no folder ${folder}. Settings shows the data folder's path.`, 1);
}

function newest(folder: string): string {
  const file = newestGoodBackup(folder);
  if (file !== null) return file;
  throw new CommandError(
    `There is no good backup in ${join(folder, "backups")}. If you have a copy elsewhere, name it.`,
    1,
  );
}

/** A bare name is one of the list; a path is a path. */
function named(folder: string, asked: string): string {
  const listed = listBackups(folder).find(({ path }) => basename(path) === asked);
  if (listed !== undefined) return listed.path;
  const path = isAbsolute(asked) ? asked : resolve(asked);
  if (path === join(folder, databaseName)) {
    throw new CommandError("This is the data file itself; name a backup. See cli restore --list.");
  }
  if (existsSync(path)) return path;
  throw new CommandError(`There is no backup ${asked}. See cli restore --list.`, 1);
}

function list(folder: string): string[] {
  const live = join(folder, databaseName);
  const lines = [`The data file now: ${contentsLine(live)}`];
  const backups = listBackups(folder);
  if (backups.length === 0) lines.push(`There are no backups in ${join(folder, "backups")}.`);
  return [...lines, ...backups.map(line)];
}

function line({ path, kind }: Backup): string {
  const why = kind === "daily" ? "" : ", taken before an update";
  return `${basename(path)}: ${contentsLine(path)}${why}`;
}

function contentsLine(path: string): string {
  if (!existsSync(path)) return "not there";
  try {
    if (isProvenUseless(path)) return "damaged, or not a Pebblechime backup";
    return said(contentsOf(path));
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    return "cannot be read";
  }
}

function said({ groups, students, sessions, lastDay }: Contents): string {
  const last = lastDay === null ? "" : `, the newest of ${lastDay}`;
  return `${counted(groups, "group")}, ${counted(students, "student")}, ${counted(sessions, "session")}${last}`;
}

const counted = (count: number, what: string): string =>
  `${count} ${count === 1 ? what : `${what}s`}`;

/** What is wrong with the backup must not read as if it were wrong with the data file. */
function attempt<Result>(file: string, work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    const { problem } = error;
    const isOfBackup = problem === "damaged" || problem === "foreign" || problem === "newer";
    throw new CommandError(isOfBackup ? `${basename(file)}: ${why[problem]}` : error.message, 1);
  }
}

const why = {
  damaged: "this backup is damaged, so nothing was changed. See cli restore --list for another.",
  foreign: "this file was not made by Pebblechime, so nothing was changed.",
  newer:
    "this backup was made by a newer version of Pebblechime, so nothing was changed. Install the newest version first.",
} as const;
