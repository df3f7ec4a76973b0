import { getSystemErrorMessage } from "node:util";
import { agreement } from "./commands/agreement.ts";
import { analyse } from "./commands/analyse.ts";
import { type Command, CommandError } from "./commands/command.ts";
import { cues } from "./commands/cues.ts";
import { designs } from "./commands/designs.ts";
import { ledger } from "./commands/ledger.ts";
import { pairs } from "./commands/pairs.ts";
import { prices } from "./commands/prices.ts";
import { restore } from "./commands/restore.ts";
import { teams } from "./commands/teams.ts";

/** Every subcommand by name. A new one is a file in commands/ and a line here. */
const commands: Readonly<Record<string, Command>> = {
  cues,
  analyse,
  agreement,
  designs,
  prices,
  ledger,
  teams,
  pairs,
  restore,
};

const help = `Usage: cli COMMAND [options]

Commands
${Object.entries(commands)
  .map(([name, { summary }]) => `  ${name.padEnd(12)}${summary}`)
  .join("\n")}

cli COMMAND --help tells all about a command.`;

async function run([name, ...args]: readonly string[]): Promise<void> {
  const output = { write: (text: string) => void process.stdout.write(text) };
  if (name === undefined) throw new CommandError(`Say what to do: ${listed()}. See cli --help.`);
  if (asksForHelp(name) || name === "help") return output.write(`${help}\n`);
  if (!Object.hasOwn(commands, name)) {
    throw new CommandError(`There is no command "${name}", only ${listed()}. See cli --help.`);
  }
  const command = commands[name];
  if (command === undefined) return;
  if (args.some(asksForHelp)) return output.write(`${command.help}\n`);
  await command.run(args, output);
}

function asksForHelp(word: string): boolean {
  return word === "--help" || word === "-h";
}

function listed(): string {
  return Object.keys(commands).join(", ");
}

// A reader that has seen enough (`cli cues | head`) is no failure.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") return;
  const reason = error.errno === undefined ? error.message : getSystemErrorMessage(error.errno);
  process.stderr.write(`The output could not be written: ${reason}.\n`);
  process.exitCode = 1;
});

try {
  await run(process.argv.slice(2));
} catch (error) {
  if (!(error instanceof CommandError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = error.exitCode;
}
