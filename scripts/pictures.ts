import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { launchApp, launchLoopback } from "../tests/e2e/support/launch.ts";
import { root } from "../tests/e2e/support/programs.ts";
import { temporaryFolder } from "../tests/e2e/support/temporary-folder.ts";
import { type Camera, cameraOf } from "./pictures/camera.ts";
import * as classes from "./pictures/classes.ts";
import { liveRound, type Stage, setCode } from "./pictures/live.ts";
import { paperRound, routeRound, stateRound } from "./pictures/pages.ts";
import { troubleRound } from "./pictures/troubles.ts";
import { type Language, wordsOf } from "./pictures/words.ts";

// Takes a picture of every screen of the running app in every state, with invented classes: at a laptop's and
// a projector's size, on day and on evening paper, in both languages; the live screens on both hosts. The
// README's pictures are three of them.
// Usage: npm run pictures [-- FOLDER] [--language en|es] [--part live|routes|states|papers|troubles|shell] [--only REGEXP]

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    language: { type: "string" },
    part: { type: "string" },
    only: { type: "string" },
  },
});
const folder = positionals[0] ?? join(root, "build", "pictures");
const readme = join(root, "docs", "pictures");
mkdirSync(readme, { recursive: true });
const only = values.only === undefined ? null : new RegExp(values.only);
const languages = (["en", "es"] as const).filter((each) => (values.language ?? each) === each);
const isWanted = (part: string) => (values.part ?? part) === part;

type Fill<Made> = (folder: string, language: Language) => Made;

/** Opens an app with a class, hands it over, and clears away behind it. */
async function withClass<Made>(
  host: "browser" | "shell",
  { camera, language, fill }: { camera: Camera; language: Language; fill: Fill<Made> },
  use: (stage: Stage, made: Made) => Promise<void>,
): Promise<void> {
  const data = temporaryFolder();
  const made = fill(data.path, language);
  const options = { dataFolder: data.path, args: ["--speed", "4"] };
  const app = host === "shell" ? await launchApp(options) : await launchLoopback(options);
  try {
    const page = await app.page();
    page.setDefaultTimeout(20_000);
    const { origin } = new URL(page.url());
    const address = (path: string) => `${origin}${path}`;
    const words = wordsOf(language);
    await use({ page, words, camera, address, windows: () => app.windows() }, made);
  } finally {
    await app.close();
    data.remove();
  }
}

async function live(host: "browser" | "shell", camera: Camera, language: Language): Promise<void> {
  const each = { camera, language };
  await withClass(host, { ...each, fill: classes.liveClass }, async (stage, { groupId }) => {
    await setCode(stage);
    await liveRound(stage, { name: "eight", groupId });
  });
  await withClass(host, { ...each, fill: classes.fortyStudents }, async (stage, { groupId }) => {
    await setCode(stage);
    await liveRound(stage, { name: "forty", groupId });
  });
}

const missed: string[] = [];
let taken = 0;
for (const language of languages) {
  for (const host of ["browser", "shell"] as const) {
    const camera = cameraOf({ folder, language, host, only, readme });
    const part = (name: string, draw: () => Promise<unknown>) =>
      isWanted(name) ? camera.part(name, draw) : Promise.resolve();
    const each = { camera, language };
    if (host === "browser") {
      await part("live", () => live(host, camera, language));
      await part("routes", () =>
        withClass(host, { ...each, fill: classes.sampleClass }, routeRound),
      );
      await part("papers", () =>
        withClass(host, { ...each, fill: classes.sampleClass }, paperRound),
      );
      await part("states", async () => {
        for (const [name, fill] of Object.entries(classes.states)) {
          await withClass(host, { ...each, fill }, (stage, made) => stateRound(stage, name, made));
        }
      });
      await part("troubles", () => troubleRound({ camera, language }));
    } else await part("shell", () => live(host, camera, language));
    missed.push(...camera.missed);
    taken += camera.taken.length;
  }
}
console.log(`${taken} screens are drawn in ${folder}, the README's in ${readme}.`);
for (const each of missed) console.error(`Not drawn: ${each}`);
process.exitCode = missed.length === 0 ? 0 : 1;
