import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "../../tests/e2e/support/programs.ts";

export type Language = "en" | "es";

/** What the app says in one language, so that a press finds its button by the word on it. */
export interface Words {
  readonly language: Language;
  /** A message without values, as it stands. */
  say(id: string): string;
  /** A message with values: anything may stand in their place. */
  like(id: string): RegExp;
}

/** @throws Error for a message that is in no catalogue */
export function wordsOf(language: Language): Words {
  const folder = join(root, "src", "text", language);
  const files = readdirSync(folder).filter((name) => name.endsWith(".json"));
  const all: Record<string, string> = Object.assign(
    {},
    ...files.map((name) => JSON.parse(readFileSync(join(folder, name), "utf8"))),
  );
  const say = (id: string) => {
    const message = all[id];
    if (message === undefined) throw new Error(`No message "${id}" in ${language}.`);
    return message.replaceAll("''", "'");
  };
  const escaped = (text: string) => text.replaceAll(/[.*+?^$()[\]\\|]/g, "\\$&");
  const like = (id: string) => {
    // A value may hold others, as a plural does: from the innermost outwards.
    let text = say(id);
    while (/\{[^{}]*\}/.test(text)) text = text.replaceAll(/\{[^{}]*\}/g, "\0");
    return new RegExp(`^${text.split(/\0+/).map(escaped).join(".*")}$`, "s");
  };
  return { language, say, like };
}
