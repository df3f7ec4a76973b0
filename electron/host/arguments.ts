import { parseArgs } from "node:util";

/** What a start was asked for. */
export interface StartArguments {
  /** The data folder given, or null for the usual one. */
  readonly data: string | null;
  /** Add the invented sample class when it is not there. */
  readonly sample: boolean;
  /** How many times faster than real time sessions run. */
  readonly speed: number;
  /** Print how long each step of the start took. */
  readonly timing: boolean;
  /** Do not open a browser. */
  readonly quiet: boolean;
  /** A backup to look at, as the system asks for when one is opened; null for none. */
  readonly backup: string | null;
}

export const usage = "npm start -- [--data FOLDER] [--sample] [--speed 1 to 600] [--timing]";

/** What was asked for cannot be understood; the message is one line that says what to do. */
export class ArgumentError extends Error {
  constructor(problem: string) {
    super(`${problem} Use: ${usage}`);
    this.name = "ArgumentError";
  }
}

/** Whether a word names a backup: our own ending, or the one of earlier versions. */
export const isBackupPath = (word: string): boolean =>
  !word.startsWith("-") && /\.(pebblechime|sqlite)$/i.test(word);

/**
 * @param given the words after the program's name
 * @param opensBackups whether a backup can be named, as the installed app's can
 * @throws ArgumentError when a word is unknown or a value makes no sense
 */
export function parseArguments(given: readonly string[], opensBackups = false): StartArguments {
  const { values, positionals, tokens } = parseArgs({
    args: [...given],
    strict: false,
    allowPositionals: true,
    tokens: true,
    options: {
      data: { type: "string" },
      sample: { type: "boolean" },
      speed: { type: "string" },
      timing: { type: "boolean" },
      quiet: { type: "boolean" },
    },
  });
  const backup = opensBackups ? positionals.find(isBackupPath) : undefined;
  const stray = positionals.find((word) => word !== backup);
  if (stray !== undefined) throw new ArgumentError(`"${stray}" is not understood.`);
  const known = ["data", "sample", "speed", "timing", "quiet"];
  const names = tokens.flatMap((token) => (token.kind === "option" ? [token.name] : []));
  const unknown = names.find((name) => !known.includes(name));
  if (unknown !== undefined) throw new ArgumentError(`"--${unknown}" is not known.`);
  const twice = names.find((name, place) => names.indexOf(name) !== place);
  if (twice !== undefined) throw new ArgumentError(`--${twice} is given twice; say it once.`);
  return {
    data: folder(values.data),
    sample: flag("sample", values.sample),
    speed: speed(values.speed),
    timing: flag("timing", values.timing),
    quiet: flag("quiet", values.quiet),
    backup: backup ?? null,
  };
}

type Given = string | boolean | undefined | (string | boolean)[];

function folder(given: Given): string | null {
  if (given === undefined) return null;
  // Another option in the folder's place is a forgotten folder, not a folder of that name.
  if (typeof given !== "string" || given.trim() === "" || given.startsWith("--")) {
    throw new ArgumentError("--data needs a folder.");
  }
  return given;
}

function flag(name: string, given: Given): boolean {
  if (given === undefined || given === true) return given === true;
  throw new ArgumentError(`--${name} takes no value.`);
}

function speed(given: Given): number {
  if (given === undefined) return 1;
  const factor = typeof given === "string" && given.trim() !== "" ? Number(given) : Number.NaN;
  if (factor >= 1 && factor <= 600) return factor;
  throw new ArgumentError("--speed needs a number from 1 to 600.");
}
