/** Where a command writes; passed in so that commands can be tried without a process. */
export interface CommandOutput {
  write(text: string): void;
}

/** One subcommand of the command line. */
export interface Command {
  /** One line for the list of commands. */
  readonly summary: string;
  /** The complete text of `--help`. */
  readonly help: string;
  /**
   * Runs with the arguments after the command's name.
   *
   * @throws CommandError, shown as one line.
   */
  run(args: readonly string[], output: CommandOutput): Promise<void>;
}

/** 2: the request makes no sense as written. 1: it does, but could not be carried out. */
export type ExitCode = 1 | 2;

/** A failure that a person can correct; its message is one clear line. */
export class CommandError extends Error {
  readonly exitCode: ExitCode;

  constructor(message: string, exitCode: ExitCode = 2) {
    super(message);
    this.name = "CommandError";
    this.exitCode = exitCode;
  }
}
