// npm start: installs and builds what is missing, then opens the app. Needs only Node 18 and npm.
import { ensureBuilt } from "./bootstrap/built.mjs";
import { ensureDependencies } from "./bootstrap/dependencies.mjs";
import { findElectron } from "./bootstrap/electron.mjs";
import { live, pinnedNodePath, requireNode, root } from "./bootstrap/run.mjs";
import { say, startedEnvironment, stop, timing } from "./bootstrap/say.mjs";

const given = process.argv.slice(2);
const step = timing(given.includes("--timing"));

requireNode();
ensureDependencies();
step("packages there");
if (!ensureBuilt()) stop("The app could not be built; the reason is above.");
step("build there");

const electron = findElectron();
if (electron.path === undefined) {
  say(`Pebblechime opens in the browser, because ${electron.reason}.`);
}
step("host chosen");

const program = electron.path ?? pinnedNodePath();
const entry = electron.path === undefined ? "dist/electron/loopback.js" : root;
process.exitCode = await live(program, [entry, ...given], {
  channel: electron.path === undefined,
  env: startedEnvironment,
});
