import { mostTeamStudents } from "../../shared/teams/limits.ts";
import { tutoringRounds } from "../../shared/teams/pairs.ts";
import { type Command, CommandError, type CommandOutput } from "./command.ts";
import { readOptions } from "./read-options.ts";
import { wholeNumberOption } from "./whole-number-option.ts";

const help = `Usage: cli pairs --students N [--json]

Pairs for peer tutoring: everybody meets everybody once, teaching and being taught in turn. Students are
numbers from 1. With an odd number one sits out each round, everybody once.

Options
  --students N        how many students, 2 to ${mostTeamStudents}
  --json              {students, rounds}
  -h, --help          this text

In --json: rounds, a list for each round of {pairs, out}; each pair is {teacher, learner}, and out the
student who sits out, or null.

Example: cli pairs --students 9 --json`;

async function run(args: readonly string[], output: CommandOutput): Promise<void> {
  const { values, positionals } = readOptions("pairs", args, {
    students: { type: "string" },
    json: { type: "boolean" },
  });
  if (positionals.length > 0)
    throw new CommandError(
      `"${positionals.join('", "')}" is not needed here. See cli pairs --help.`,
    );
  const students = wholeNumberOption("pairs", "students", values.students, 2, mostTeamStudents);
  const rounds = tutoringRounds(students).map(({ pairs: met, out }) => ({
    pairs: met.map(({ teacher, learner }) => ({ teacher: teacher + 1, learner: learner + 1 })),
    out: out === null ? null : out + 1,
  }));
  if (values.json === true) {
    output.write(`${JSON.stringify({ students, rounds })}\n`);
    return;
  }
  const width = String(rounds.length).length;
  rounds.forEach(({ pairs: met, out }, at) => {
    const words = met.map(({ teacher, learner }) => `${teacher} teaches ${learner}`);
    if (out !== null) words.push(`${out} sits out`);
    output.write(`${String(at + 1).padStart(width)}: ${words.join(", ")}\n`);
  });
}

export const pairs: Command = {
  summary: "pair students for peer tutoring, everybody with everybody",
  help,
  run,
};
