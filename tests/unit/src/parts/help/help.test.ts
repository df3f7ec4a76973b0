import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { book } from "../../../../../src/parts/help/book.ts";
import { topicOf, topics } from "../../../../../src/parts/help/topics.ts";

const folder = join(import.meta.dirname, "../../../../../src/text/help");
const app = readFileSync(join(import.meta.dirname, "../../../../../src/app/routes.tsx"), "utf8");
const languages = ["en", "es"] as const;
const wordsOf = (text: string) => text.split(/\s+/).length;

describe("help", () => {
  it("has a page for each address of a teacher's page, and says which", () => {
    expect(topicOf("/")).toBe("today");
    expect(topicOf("/groups/7")).toBe("group");
    expect(topicOf("/groups/7/room")).toBe("group");
    expect(topicOf("/groups/7/plans/8")).toBe("plan");
    expect(topicOf("/groups/7/practice")).toBe("practice");
    expect(topicOf("/groups/7/teams")).toBe("teams");
    expect(topicOf("/groups/7/home-cards")).toBe("homeCard");
    expect(topicOf("/groups/7/students/8/home-card")).toBe("homeCard");
    expect(topicOf("/groups/7/students/8/agreed")).toBe("agreed");
    expect(topicOf("/session/3/cards")).toBe("cards");
    expect(topicOf("/session/3")).toBe("session");
    expect(topicOf("/progress/how-sure/7")).toBe("sure");
    expect(topicOf("/progress/7")).toBe("class");
    expect(topicOf("/progress/7/8")).toBe("student");
    expect(topicOf("/own/7/8")).toBe("student");
    expect(topicOf("/print/report/7/8")).toBe("print");
    expect(topicOf("/nowhere")).toBe("notebook");
    // No screen of the teacher's has to do with the general page.
    const own = [...app.matchAll(/path: "(\/(?:groups|session|progress)[^"*]*)"/g)]
      .map(([, path = ""]) => path.replace(/:\w+/g, "7"))
      .filter((path) => !path.includes("observe-second"));
    expect(own.filter((path) => topicOf(path) === "notebook")).toEqual([]);
    // Each page is reached from some address of the app.
    const routes = [...app.matchAll(/path: "(\/[^"*]*)"/g)].map(([, path = ""]) =>
      path.replace(/:\w+/g, "7"),
    );
    const reached = new Set([...routes, "/print/cards/7/7", "/nowhere"].map(topicOf));
    expect([...topics].filter((topic) => !reached.has(topic))).toEqual([]);
  });

  it.each(languages)("has a file for each page and no other: %s", (language) => {
    const files = readdirSync(join(folder, language)).map((file) => file.replace(".json", ""));
    expect(files.sort()).toEqual([...topics, "first-week"].sort());
  });

  it("says the same in both languages: as many steps and questions", () => {
    for (const topic of topics) {
      const [english, spanish] = [book.en[topic], book.es[topic]];
      expect(spanish.steps.length, topic).toBe(english.steps.length);
      expect(spanish.questions.length, topic).toBe(english.questions.length);
    }
  });

  it.each(languages)("fits one page and is read in a minute: %s", (language) => {
    for (const topic of topics) {
      const { title, lead, steps, questions } = book[language][topic];
      const all = [title, lead, ...steps, ...questions.flatMap(({ ask, say }) => [ask, say])];
      for (const text of all) expect(text.trim(), topic).not.toBe("");
      // 200 to 250 words a minute are read silently; common practice, no source.
      expect(wordsOf(all.join(" ")), topic).toBeLessThanOrEqual(200);
      expect(steps.length, topic).toBeGreaterThan(0);
    }
  });

  it("keeps to the words of the app, as the catalogues do", () => {
    const outworn =
      /\b(reckon\w*|mend(ed|ing)?|oftener|seldom|lay aside|the own|an own|honest\w*|worst|rank)\b/i;
    for (const file of readdirSync(join(folder, "en"))) {
      expect(readFileSync(join(folder, "en", file), "utf8"), file).not.toMatch(outworn);
    }
  });
});
