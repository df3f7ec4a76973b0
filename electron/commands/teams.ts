import { randomStream } from "../../shared/schedule/stream.ts";
import { dealTeams, type StudentPair, type TeamProblem } from "../../shared/teams/deal-teams.ts";
import { mostTeamRounds, mostTeamStudents } from "../../shared/teams/limits.ts";
import { type Command, CommandError, type CommandOutput } from "./command.ts";
import { readOptions } from "./read-options.ts";
import { wholeNumberOption } from "./whole-number-option.ts";

const help = `Usage: cli teams --students N --size N --rounds N --seed TEXT [options]

Deals rounds of teams in which students meet again as rarely as the search can manage. Students are numbers
from 1. The same numbers and seed give the same rounds.

Options
  --students N        how many students, 2 to ${mostTeamStudents}
  --size N            size of a team; sizes differ by at most one
  --rounds N          how many rounds, 1 to ${mostTeamRounds}
  --seed TEXT         what the draw starts from
  --apart A-B         two who are never on the same team; may be repeated
  --together A-B      two who are always on the same team; may be repeated
  --json              {students, size, seed, rounds, objective, bound, repeatedPairs, mostMeetings, fewestMates}
  -h, --help          this text

In --json: rounds, a list for each round of its teams, each a list of numbers. objective, the sum over all
pairs of m (m - 1) / 2, m being how often the two meet; bound, what no draw can be below; repeatedPairs,
pairs that meet more than once; mostMeetings, the most of one pair; fewestMates, different teammates of the
student who has fewest.

Example: cli teams --students 24 --size 4 --rounds 10 --seed abc --json`;

const problems: Readonly<Record<TeamProblem["reason"], string>> = {
  "together-too-many":
    "More students are to be together than a team has places. Take one out, or make teams larger.",
  "apart-and-together":
    "Two students are to be apart and together at once, directly or through a third. Take one wish out.",
  "not-found": "No teams were found that keep everybody apart who is to be. Take one wish out.",
};

async function run(args: readonly string[], output: CommandOutput): Promise<void> {
  const { values, positionals } = readOptions("teams", args, {
    students: { type: "string" },
    size: { type: "string" },
    rounds: { type: "string" },
    seed: { type: "string" },
    apart: { type: "string", multiple: true },
    together: { type: "string", multiple: true },
    json: { type: "boolean" },
  });
  if (positionals.length > 0)
    throw new CommandError(
      `"${positionals.join('", "')}" is not needed here. See cli teams --help.`,
    );
  const students = wholeNumberOption("teams", "students", values.students, 2, mostTeamStudents);
  const size = wholeNumberOption("teams", "size", values.size, 2, students);
  const rounds = wholeNumberOption("teams", "rounds", values.rounds, 1, mostTeamRounds);
  const { seed } = values;
  if (seed === undefined || seed.trim() === "")
    throw new CommandError("Give a --seed, any word: the same one deals the same teams again.");
  const wish = (name: "apart" | "together") =>
    (values[name] ?? []).map((text) => pairIn(name, text, students));
  const dealt = dealTeams(
    { students, size, rounds, apart: wish("apart"), together: wish("together") },
    randomStream(seed, "teams"),
  );
  if (dealt.kind === "problem") throw new CommandError(problems[dealt.reason], 1);
  const numbered = dealt.rounds.map((round) =>
    round.map((team) => team.map((student) => student + 1)),
  );
  const { mixing, bound } = dealt;
  if (values.json === true) {
    const found = { students, size, seed, rounds: numbered, ...mixing, bound };
    output.write(`${JSON.stringify(found)}\n`);
    return;
  }
  const width = String(rounds).length;
  numbered.forEach((round, at) => {
    const teams = round.map((team) => team.join(" ")).join(" | ");
    output.write(`${String(at + 1).padStart(width)}: ${teams}\n`);
  });
  output.write(
    `${pairs(mixing.repeatedPairs)} more than once; the repeated meetings weigh ${mixing.objective}, the least possible is ${bound}.\n`,
  );
}

const pairs = (count: number): string =>
  count === 0 ? "No pair meets" : count === 1 ? "1 pair meets" : `${count} pairs meet`;

function pairIn(name: string, text: string, students: number): StudentPair {
  const match = /^(\d{1,3})-(\d{1,3})$/.exec(text);
  const [one, other] = [Number(match?.[1]), Number(match?.[2])];
  const isThere = (student: number) => student >= 1 && student <= students;
  if (match === null || !isThere(one) || !isThere(other) || one === other)
    throw new CommandError(
      `--${name} is "${text}"; write two different students from 1 to ${students}, as in 3-7.`,
    );
  return [one - 1, other - 1];
}

export const teams: Command = {
  summary: "deal rounds of teams that mix a class",
  help,
  run,
};
