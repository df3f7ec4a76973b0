import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { describe, expect, it } from "vitest";
import { migrate } from "../../../electron/store/file/migrate.ts";
import { root } from "./imports.ts";

const page = readFileSync(join(root, "docs", "privacy.md"), "utf8");
const inSpanish = readFileSync(join(root, "docs", "privacidad.md"), "utf8");
const [statements = "", tests = ""] = page.split("## The tests that hold each line");
const numbered = (text: string): string[] =>
  [...text.matchAll(/^(\d+)\. (.+)$/gm)].map(([, , line = ""]) => line);

const database = new Database(":memory:");
migrate(database);

/** The words of the page's first line that say what a table keeps; null for what is empty but for a moment. */
const wordsFor: Readonly<Record<string, string | null>> = {
  student: "Names",
  student_group: "groups",
  stay: "groups",
  seat: "seats",
  session: "cue",
  session_event: "yes or no for each cue, what an adult saw at spot checks, work done, your notes",
  ledger_entry: "points",
  settled: "points",
  privilege: "paid for",
  class_timer: "paid for",
  not_for: "paid for",
  saving_for: "saved for",
  last_spending: "points",
  own_goal: "an own goal",
  agreed_answer: "what was agreed with the family and who said so",
  student_paper: "the language of its papers",
  family_words: "your words to it",
  home_card: "home cards",
  home_card_day: "home cards",
  contract: "contracts",
  contract_day: "contracts",
  team_term: "teams",
  team_name: "teams",
  team_round: "teams",
  team_place: "teams",
  team_earlier_place: "teams",
  team_day: "teams",
  team_wish: "wishes",
  team_wish_student: "wishes",
  pair_lesson: "pairs",
  pair_part: "pairs",
  plan: "plans",
  phase: "phases",
  alternation: "phases",
  alternated_session: "phases",
  period: "times",
  term: "times",
  day_off: "times",
  advice_decision: "decisions",
  record_import: "imports",
  imported_phase: "imports",
  program: "settings of your program",
  setting: "settings of your program",
  practice_example: "settings of your program",
  put_aside: "settings of your program",
  own_chime: "chimes of your own",
  erasure: null,
};

const sources = (folder: string): { readonly path: string; readonly text: string }[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => ({
      path: `${folder}/${name.replaceAll("\\", "/")}`,
      text: readFileSync(join(root, folder, name), "utf8"),
    }));

describe("the privacy page", () => {
  it("the first line names whatever a table keeps", () => {
    const names = database
      .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name")
      .pluck()
      .all();
    expect(Object.keys(wordsFor).sort()).toEqual(names);
    const [first = ""] = numbered(statements);
    const unsaid = Object.values(wordsFor).filter(
      (words) => words !== null && !first.includes(words),
    );
    expect(unsaid).toEqual([]);
  });

  it("nothing can hold a photograph or a recording, and nothing asks for camera or microphone", () => {
    // What is no text and no number fits into a column of this kind alone, and a chime is the group's.
    const blobs = database
      .prepare(
        `SELECT t.name || '.' || c.name FROM pragma_table_list AS t, pragma_table_info(t.name) AS c
         WHERE t.schema = 'main' AND t.name NOT LIKE 'sqlite%' AND c.type IN ('BLOB', 'ANY', '')`,
      )
      .pluck()
      .all();
    expect(blobs).toEqual(["own_chime.sound"]);
    const asking = /getUserMedia|getDisplayMedia|MediaRecorder|<input[^>]+capture/;
    const asks = [...sources("src"), ...sources("electron")].filter(({ text }) =>
      asking.test(text),
    );
    expect(asks.map(({ path }) => path)).toEqual([]);
  });

  it("a page keeps nothing that outlives its window, but a device's waiting answers and open question", () => {
    const keeps = /\b(localStorage|indexedDB|caches|cookieStore)\b(?=[.[])|document\.cookie/;
    const outlive = sources("src").filter(({ text }) => keeps.test(text));
    expect(outlive.map(({ path }) => path)).toEqual([
      "src/seat/shown-cue.ts",
      "src/seat/waiting-marks.ts",
    ]);
  });

  it("says as much in Spanish, line by line", () => {
    // A line that grew in one language alone would be the first thing that no longer agrees.
    const shape = (text: string) =>
      numbered(text).map((line) => ({
        isLed: /^\*\*[^*]+\*\* ?/.test(line),
        sentences: [...line.matchAll(/[.;:](?= |$|\*)/g)].length,
      }));
    expect(shape(inSpanish)).toEqual(shape(statements));
  });

  it("has for each of its lines tests that are there, by their names", () => {
    const held = numbered(tests);
    expect(held).toHaveLength(numbered(statements).length);
    for (const [index, line] of held.entries()) {
      const files = [...line.matchAll(/`(tests\/[^`]+)`: ([^`]+)/g)];
      expect(files.length, `line ${index + 1}`).toBeGreaterThan(0);
      for (const [, path = "", names = ""] of files) {
        expect(existsSync(join(root, path)), path).toBe(true);
        const text = readFileSync(join(root, path), "utf8");
        const titles = [...names.matchAll(/“([^”]+)”/g)].map(([, title = ""]) => title);
        expect(titles.length, path).toBeGreaterThan(0);
        // A title stands in quotes that open it.
        const missing = titles.filter(
          (title) => !['"', "`"].some((quote) => text.includes(quote + title)),
        );
        expect(missing, path).toEqual([]);
      }
    }
  });
});
