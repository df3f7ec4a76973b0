import { StoreError } from "../store/store.ts";
import { ArgumentError } from "./arguments.ts";
import { withoutWords } from "./without-words.ts";

/** What a start that failed says, and the code it ends with. */
export interface StartFailure {
  readonly text: string;
  /** 2: something that a person can correct. 1: our mistake. */
  readonly exitCode: 1 | 2;
}

/**
 * Words what kept the app from starting in a terminal: one sentence to act on, with the command where one
 * helps. Of anything else only where it happened; never a word of the data.
 *
 * @param folder the data folder, or null when it was not known yet
 * @param isPackage whether it was started from the package of npm, which has another command line
 */
export function startFailure(
  error: unknown,
  folder: string | null,
  isPackage = false,
): StartFailure {
  if (error instanceof ArgumentError) return { text: error.message, exitCode: 2 };
  if (!(error instanceof StoreError)) {
    const sorry = "Pebblechime could not start, and nothing was changed. Try again.";
    return { text: `${sorry}\n${withoutWords(error)}`, exitCode: 1 };
  }
  const where = folder === null ? "" : ` The folder is ${folder}.`;
  return {
    text: [`${error.message}${where}`, ...wayOut(error, folder, isPackage)].join("\n"),
    exitCode: 2,
  };
}

function wayOut(
  { problem, backup }: StoreError,
  folder: string | null,
  isPackage: boolean,
): string[] {
  if (problem !== "damaged" || folder === null) return [];
  if (backup === null) return ["There is no good backup in it."];
  const restore = `restore --data "${folder}"`;
  return [
    `The newest good backup: ${backup}`,
    isPackage
      ? `To restore it, start Pebblechime as you did now, with these words after it: cli ${restore}`
      : `To restore it: npm run -s cli -- ${restore}`,
  ];
}
