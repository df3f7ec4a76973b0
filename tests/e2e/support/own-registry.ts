import { execFile } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { basename, dirname, join } from "node:path";
import { promisify } from "node:util";
import { root } from "./programs.ts";

const run = promisify(execFile);

/**
 * A registry on this machine that has the packages installed here and no other, so that a test of npm
 * asks nothing of any network: what npm keeps of an installation is not enough to install again.
 */
export async function ownRegistry(): Promise<{ readonly url: string; close(): void }> {
  const server = createServer(async ({ url = "" }, answer) => {
    const [, isArchive, name = ""] = /^\/(-\/)?([\w.-]+?)(?:\.tgz)?$/.exec(url) ?? [];
    const folder = name === "" ? null : folderOf(name);
    if (folder === null) answer.writeHead(404).end("{}");
    else if (isArchive !== undefined) answer.end(await archive(folder));
    else answer.end(JSON.stringify(description(folder, `http://${answer.req.headers.host}`)));
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const { port } = server.address() as AddressInfo;
  return { url: `http://127.0.0.1:${port}/`, close: () => server.close() };
}

/** Where a package is installed; Node's own program lies below the package that fetches it. */
function folderOf(name: string): string | null {
  const places = [join(root, "node_modules"), join(root, "node_modules", "node", "node_modules")];
  return places.map((place) => join(place, name)).find((place) => existsSync(place)) ?? null;
}

/** What a registry says of a package, in npm's form, of the one version that is here. */
function description(folder: string, origin: string) {
  const own = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const dist = { tarball: `${origin}/-/${own.name}.tgz` };
  const hasInstallScript = ["preinstall", "install", "postinstall"].some(
    (script) => script in (own.scripts ?? {}),
  );
  return {
    name: own.name,
    "dist-tags": { latest: own.version },
    versions: { [own.version]: { ...own, hasInstallScript, dist } },
  };
}

/** The package as it was fetched: without what its own install script has added. */
async function archive(folder: string): Promise<Buffer> {
  const name = basename(folder);
  const added = name === "node" ? ["node_modules", "bin"] : ["node_modules"];
  const leavingOut = added.map((each) => `--exclude=${name}/${each}`);
  const options = { cwd: dirname(folder), encoding: "buffer", maxBuffer: 1024 ** 3 } as const;
  const { stdout } = await run("tar", ["-cf", "-", ...leavingOut, name], options);
  return stdout;
}
