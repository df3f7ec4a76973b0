import { parseArgs } from "node:util";
import { mostSockets, mostSocketsAnAddress } from "../../shared/seats/limits.ts";

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
  /** Port for students' own devices; 0 lets the system choose. */
  readonly seatsPort: number;
  /** PEM file with the certificate and key for an encrypted line to them, or null. */
  readonly seatsCertificate: string | null;
  /** Devices that one address may connect; more where a router stands between. */
  readonly seatsAnAddress: number;
}

/** Slips of a term name it, so it is the same at every start. */
const usualSeatsPort = 47_120;

export const usage =
  "npm start -- [--data FOLDER] [--sample] [--speed 1 to 600] [--timing] [--seats-port NUMBER] [--seats-certificate FILE] [--seats-an-address NUMBER]";

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
      "seats-port": { type: "string" },
      "seats-certificate": { type: "string" },
      "seats-an-address": { type: "string" },
    },
  });
  const backup = opensBackups ? positionals.find(isBackupPath) : undefined;
  const stray = positionals.find((word) => word !== backup);
  if (stray !== undefined) throw new ArgumentError(`"${stray}" is not understood.`);
  const known = [
    "data",
    "sample",
    "speed",
    "timing",
    "quiet",
    "seats-port",
    "seats-certificate",
    "seats-an-address",
  ];
  const names = tokens.flatMap((token) => (token.kind === "option" ? [token.name] : []));
  const unknown = names.find((name) => !known.includes(name));
  if (unknown !== undefined) throw new ArgumentError(`"--${unknown}" is not known.`);
  const twice = names.find((name, place) => names.indexOf(name) !== place);
  if (twice !== undefined) throw new ArgumentError(`--${twice} is given twice; say it once.`);
  return {
    data: path("data", "a folder", values.data),
    sample: flag("sample", values.sample),
    speed: speed(values.speed),
    timing: flag("timing", values.timing),
    quiet: flag("quiet", values.quiet),
    backup: backup ?? null,
    seatsPort: number(values["seats-port"], {
      name: "seats-port",
      range: [0, 65_535],
      usual: usualSeatsPort,
    }),
    seatsCertificate: path("seats-certificate", "a file", values["seats-certificate"]),
    seatsAnAddress: number(values["seats-an-address"], {
      name: "seats-an-address",
      range: [1, mostSockets],
      usual: mostSocketsAnAddress,
    }),
  };
}

type Given = string | boolean | undefined | (string | boolean)[];

function path(name: string, kind: string, given: Given): string | null {
  if (given === undefined) return null;
  // Another option in its place is a forgotten path, not a path of that name.
  if (typeof given !== "string" || given.trim() === "" || given.startsWith("--")) {
    throw new ArgumentError(`--${name} needs ${kind}.`);
  }
  return given;
}

function number(given: Given, { name, range: [least, most], usual }: NumberOption): number {
  if (given === undefined) return usual;
  const said = typeof given === "string" && given.trim() !== "" ? Number(given) : Number.NaN;
  if (Number.isInteger(said) && said >= least && said <= most) return said;
  throw new ArgumentError(`--${name} needs a whole number from ${least} to ${most}.`);
}

interface NumberOption {
  readonly name: string;
  readonly range: readonly [number, number];
  readonly usual: number;
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
