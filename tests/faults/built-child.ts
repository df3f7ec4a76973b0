import { join } from "node:path";
import { build } from "esbuild";

/**
 * Makes one file of a program that is killed again and again: it starts faster than hundreds. It lies in the
 * project, where it finds the SQLite binary.
 * @param name of the program beside this file, without its ending
 * @returns the path of the file
 */
export async function builtChild(name: string): Promise<string> {
  const outfile = join(import.meta.dirname, "..", "..", "build", "faults", `${name}.mjs`);
  await build({
    entryPoints: [join(import.meta.dirname, `${name}.ts`)],
    outfile,
    bundle: true,
    platform: "node",
    format: "esm",
    external: ["better-sqlite3"],
    // Packages in the older module format ask for Node's own modules in the older way.
    banner: {
      js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);',
    },
  });
  return outfile;
}
