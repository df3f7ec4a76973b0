import { cpSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { type MessageFormatElement, parse, TYPE } from "@formatjs/icu-messageformat-parser";
import { printAST } from "@formatjs/icu-messageformat-parser/printer.js";
import { build, type Plugin } from "vite";
import { root } from "./programs.ts";

// A language that is longer than English everywhere, to find where a screen has no room for one. It takes
// the place of the English words in a build of the page that a test makes for itself; the app knows nothing
// of it.

// Two of each of these letters make a text longer by about 40 %, which is what translations of short English
// texts are commonly planned with (common practice, no source), and words that cannot be broken with them.
const letters: Readonly<Record<string, string>> = {
  a: "áá",
  e: "éé",
  i: "íí",
  o: "óó",
  u: "úú",
  y: "ýý",
  n: "ññ",
  s: "šš",
  A: "ÁÁ",
  E: "ÉÉ",
  I: "ÍÍ",
  O: "ÓÓ",
  U: "ÚÚ",
  Y: "ÝÝ",
  N: "ÑÑ",
  S: "ŠŠ",
};

/** A plain text in the longer language: "Yes" becomes "ÝÝééšš". */
export const longer = (text: string): string =>
  text.replace(/[a-zA-Z]/g, (letter) => letters[letter] ?? letter);

/**
 * An ICU message in the longer language, between brackets that show whether both its ends are in sight.
 * Names of values, tags and plurals stay as they are.
 */
export function pseudo(message: string): string {
  return `[${printAST(lengthened(parse(message)))}]`;
}

function lengthened(elements: readonly MessageFormatElement[]): MessageFormatElement[] {
  return elements.map((element) => {
    switch (element.type) {
      case TYPE.literal:
        return { ...element, value: longer(element.value) };
      case TYPE.tag:
        return { ...element, children: lengthened(element.children) };
      case TYPE.plural:
      case TYPE.select: {
        const options = Object.entries(element.options).map(
          ([name, option]) => [name, { ...option, value: lengthened(option.value) }] as const,
        );
        return { ...element, options: Object.fromEntries(options) };
      }
      default:
        return element;
    }
  });
}

/** Every text of a file of words, however deep it stands. */
function inPseudo(words: unknown): unknown {
  if (typeof words === "string") return pseudo(words);
  if (Array.isArray(words)) return words.map(inPseudo);
  if (typeof words !== "object" || words === null) return words;
  return Object.fromEntries(Object.entries(words).map(([key, value]) => [key, inPseudo(value)]));
}

const englishWords = /\/src\/text\/(help\/)?en\/[^/]+\.json$/;

const wordsInPseudo: Plugin = {
  name: "words-in-pseudo",
  enforce: "pre",
  transform: (code, id) =>
    englishWords.test(id) ? JSON.stringify(inPseudo(JSON.parse(code))) : undefined,
};

/**
 * Puts the built app into an empty folder, with the longer language for English in its page.
 * @param folder what `LaunchOptions.appFolder` takes
 */
export async function buildInPseudo(folder: string): Promise<void> {
  for (const part of ["electron", "seats"]) {
    cpSync(join(root, "dist", part), join(folder, "dist", part), { recursive: true });
  }
  cpSync(join(root, "package.json"), join(folder, "package.json"));
  symlinkSync(join(root, "node_modules"), join(folder, "node_modules"), "junction");
  // The page as it is shipped, not as the test runner would have it.
  const before = process.env.NODE_ENV;
  process.env.NODE_ENV = "production";
  try {
    await build({
      root: join(root, "src"),
      configFile: join(root, "vite.config.ts"),
      logLevel: "error",
      plugins: [wordsInPseudo],
      build: { outDir: join(folder, "dist", "app") },
    });
  } finally {
    process.env.NODE_ENV = before;
  }
}
