import { type ParseArgsConfig, parseArgs } from "node:util";
import { CommandError } from "./command.ts";

type Options = NonNullable<ParseArgsConfig["options"]>;

/**
 * Reads the options of a command that works on one file, and that file's path.
 *
 * @throws CommandError for an unknown option, no file, or more than one.
 */
export function readFileOptions<T extends Options>(
  command: string,
  args: readonly string[],
  options: T,
) {
  const { values, positionals } = readOptions(command, args, options);
  const [path, ...others] = positionals;
  if (path === undefined) {
    throw new CommandError(
      `Name the file to read, or - for standard input. See cli ${command} --help.`,
    );
  }
  if (others.length > 0) {
    throw new CommandError(`One file at a time; leave out "${others.join('", "')}".`);
  }
  return { path, values };
}

/**
 * Reads the options and the other words of a command.
 *
 * @throws CommandError for an unknown option or a missing value.
 */
export function readOptions<T extends Options>(
  command: string,
  args: readonly string[],
  options: T,
) {
  try {
    return parseArgs({ args: [...args], strict: true, allowPositionals: true, options });
  } catch (error) {
    // parseArgs explains itself over several sentences; the first names the option.
    const [sentence] = String(error instanceof Error ? error.message : error).split(/\.\s|\n/);
    throw new CommandError(`${sentence}. See cli ${command} --help.`);
  }
}
