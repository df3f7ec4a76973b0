import { describe, expect, it } from "vitest";
import { type Command, CommandError } from "../../../../electron/commands/command.ts";
import { pairs } from "../../../../electron/commands/pairs.ts";
import { teams } from "../../../../electron/commands/teams.ts";

async function said(command: Command, ...args: string[]): Promise<string> {
  let text = "";
  const write = (part: string) => {
    text += part;
  };
  await command.run(args, { write });
  return text;
}

const small = ["--students", "9", "--size", "3", "--rounds", "4", "--seed", "abc"];

describe("cli teams", () => {
  it("prints rounds of numbers, the objective and the bound", async () => {
    const found = JSON.parse(await said(teams, ...small, "--json"));
    expect(found).toMatchObject({ students: 9, size: 3, seed: "abc", objective: 0, bound: 0 });
    expect(found.rounds).toHaveLength(4);
    for (const round of found.rounds) {
      expect([...round.flat()].sort((a: number, b: number) => a - b)).toEqual([
        1, 2, 3, 4, 5, 6, 7, 8, 9,
      ]);
    }
  });

  it("says the gap in words", async () => {
    const text = await said(teams, ...small);
    expect(text.split("\n")).toHaveLength(6);
    expect(text).toContain(
      "No pair meets more than once; the repeated meetings weigh 0, the least possible is 0.",
    );
  });

  it("keeps apart whom it is told to", async () => {
    const found = JSON.parse(await said(teams, ...small, "--apart", "1-2", "--json"));
    for (const round of found.rounds) {
      for (const team of round) expect(team).not.toEqual(expect.arrayContaining([1, 2]));
    }
  });

  it.each([
    [[], "Give --students, from 2 to 60. See cli teams --help."],
    [["--students", "nine"], '--students is "nine"; write a whole number from 2 to 60.'],
    [["--students", "9", "--size", "10"], '--size is "10"; write a whole number from 2 to 9.'],
    [small.slice(0, 6), "Give a --seed, any word: the same one deals the same teams again."],
    [
      [...small, "--apart", "1-1"],
      '--apart is "1-1"; write two different students from 1 to 9, as in 3-7.',
    ],
    [[...small, "--apart", "1-2", "--together", "2-1"], /apart and together at once/],
  ])("refuses %j", async (args, words) => {
    await expect(said(teams, ...args)).rejects.toThrow(words);
    await expect(said(teams, ...args)).rejects.toBeInstanceOf(CommandError);
  });
});

describe("cli pairs", () => {
  it("prints rounds with teacher and learner, and who sits out", async () => {
    const found = JSON.parse(await said(pairs, "--students", "9", "--json"));
    expect(found.rounds).toHaveLength(9);
    expect(found.rounds.map(({ out }: { out: number }) => out)).toEqual([
      1, 2, 3, 4, 5, 6, 7, 8, 9,
    ]);
    for (const { pairs: met } of found.rounds) {
      expect(met).toHaveLength(4);
      expect(Object.keys(met[0])).toEqual(["teacher", "learner"]);
    }
  });

  it("says them in words", async () => {
    expect((await said(pairs, "--students", "3")).split("\n").slice(0, 1)).toEqual([
      "1: 2 teaches 3, 1 sits out",
    ]);
  });

  it("refuses one student", async () => {
    await expect(said(pairs, "--students", "1")).rejects.toThrow(
      '--students is "1"; write a whole number from 2 to 60.',
    );
  });
});
