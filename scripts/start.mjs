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
step("host chosen");

if (electron.path === undefined) {
  process.exitCode = await openInBrowser(electron.reason);
} else {
  const began = Date.now();
  const { code, died } = await live(electron.path, [root, ...given], {
    channel: false,
    env: startedEnvironment,
  });
  // Some systems forbid its sandbox or lack a library: then it dies before there is a window.
  const atOnce = died && Date.now() - began < 10_000;
  process.exitCode = atOnce ? await openInBrowser("Electron cannot run on this system") : code;
}

async function openInBrowser(reason) {
  say(`Pebblechime opens in the browser, because ${reason}.`);
  const program = [pinnedNodePath(), ["dist/electron/loopback.js", ...given]];
  const { code } = await live(...program, { env: startedEnvironment });
  return code;
}
