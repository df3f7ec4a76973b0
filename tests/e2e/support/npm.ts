import { execFileSync } from "node:child_process";
import { existsSync, realpathSync } from "node:fs";
import { delimiter, dirname, join } from "node:path";

/** The folder of npm's own programs, which any Node runs; what is called "npm" is a script that Windows runs by a shell. */
function npmFolder(): string {
  const given = process.env.npm_execpath;
  const folders = [dirname(process.execPath), ...(process.env.PATH ?? "").split(delimiter)];
  const places = [
    ...(given?.endsWith("npm-cli.js") ? [given] : []),
    ...folders.flatMap((folder) => [
      join(folder, "node_modules", "npm", "bin", "npm-cli.js"),
      join(folder, "..", "lib", "node_modules", "npm", "bin", "npm-cli.js"),
      join(folder, "npm"),
    ]),
  ];
  const found = places
    .filter((place) => existsSync(place))
    .map((place) => realpathSync(place))
    .find((place) => place.endsWith("npm-cli.js"));
  if (found === undefined) throw new Error("No npm was found on this computer.");
  return dirname(found);
}

/** Runs npm with these words in a folder; resolves to what it printed. */
export const npm = (words: readonly string[], folder: string): string =>
  execFileSync(process.execPath, [join(npmFolder(), "npm-cli.js"), ...words], {
    cwd: folder,
    encoding: "utf8",
  });

/** What Node runs for "npx" and these words. */
export const npx = (words: readonly string[]): string[] => [
  join(npmFolder(), "npx-cli.js"),
  ...words,
];
