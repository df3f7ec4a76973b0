import { copyFile, readFile } from "node:fs/promises";
import { build, type Plugin } from "esbuild";
import { plainTokens } from "./plain-tokens.ts";
import { seatTarget } from "./target.ts";

/** The tokens of the app, in the words of old browsers. */
const tokens: Plugin = {
  name: "plain-tokens",
  setup({ onLoad }) {
    onLoad({ filter: /src[\\/]tokens\.css$/ }, async ({ path }) => ({
      contents: plainTokens(await readFile(path, "utf8")),
      loader: "css",
    }));
  },
};

/** Builds the page for students' own devices: three files and no more. */
export async function buildSeat(root: string, folder: string): Promise<void> {
  await build({
    absWorkingDir: root,
    entryPoints: { seat: "src/seat/seat.ts" },
    bundle: true,
    format: "iife",
    minify: true,
    target: seatTarget,
    // The bundler counts it as missing before Safari 14.1, for one fault of it (see target.ts).
    supported: { destructuring: true },
    outdir: folder,
    logLevel: "warning",
  });
  await build({
    absWorkingDir: root,
    entryPoints: { seat: "src/seat/seat.css" },
    bundle: true,
    minify: true,
    target: seatTarget,
    outdir: folder,
    logLevel: "warning",
    plugins: [tokens],
  });
  await copyFile(`${root}/src/seat/index.html`, `${folder}/index.html`);
}
