import { CommandError } from "./command.ts";

/**
 * The whole number that an option of a command must have.
 *
 * @throws CommandError where it is missing, is no whole number, or lies outside its range.
 */
export function wholeNumberOption(
  command: string,
  name: string,
  text: string | undefined,
  least: number,
  most: number,
): number {
  if (text === undefined)
    throw new CommandError(`Give --${name}, from ${least} to ${most}. See cli ${command} --help.`);
  const value = /^\d{1,9}$/.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= most) return value;
  throw new CommandError(`--${name} is "${text}"; write a whole number from ${least} to ${most}.`);
}
