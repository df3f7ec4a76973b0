import { registerHooks } from "node:module";
import { pathToFileURL } from "node:url";

// Runs the app's own bundled main file, unmodified, with this folder's stand-in as its "electron":
//   node tests/standin/start.ts CHROMIUM MAIN.js [the app's arguments]
// Under a parent that opened an IPC channel it says when it is ready and evaluates what tests send.

const standIn = new URL("electron.ts", import.meta.url).href;
registerHooks({
  resolve: (specifier, context, next) =>
    specifier === "electron" || specifier === "electron/main"
      ? { url: standIn, format: "module-typescript", shortCircuit: true }
      : next(specifier, context),
});

const [node = "", , chromium, main, ...rest] = process.argv;
if (chromium === undefined || main === undefined) {
  throw new Error("Give the path of Chromium and of the bundled main file.");
}
// As when Electron is started with a folder: the program, the app's path, then the app's arguments.
process.argv = [node, main, ...rest];

const electron: Record<string, unknown> = await import(standIn);
const { app } = await import("./app.ts");

interface FromTest {
  readonly id: number;
  readonly source: string;
  readonly value: unknown;
}
process.on("message", async ({ id, source, value }: FromTest) => {
  try {
    // The test's own function, by its text; it can only use what it is given.
    const run: (electron: object, value: unknown) => unknown = new Function(`return (${source})`)();
    process.send?.({ kind: "result", id, value: await run(electron, value) });
  } catch (error) {
    process.send?.({ kind: "error", id, message: String(error) });
  }
});
process.on("disconnect", () => undefined);

await import(pathToFileURL(main).href);
const browser = await app.begin(chromium);
process.send?.({ kind: "ready", ...browser });
