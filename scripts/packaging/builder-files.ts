import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join, matchesGlob } from "node:path";

/** A pattern, or a set of them with a folder of its own. */
type FilePattern = string | { readonly from?: string; readonly filter: readonly string[] };

/** The fuses that the builder can set, in their order in the program. */
export type Fuse =
  | "runAsNode"
  | "enableCookieEncryption"
  | "enableNodeOptionsEnvironmentVariable"
  | "enableNodeCliInspectArguments"
  | "enableEmbeddedAsarIntegrityValidation"
  | "onlyLoadAppFromAsar"
  | "loadBrowserProcessSpecificV8Snapshot"
  | "grantFileProtocolExtraPrivileges";

/** What of the builder's configuration decides which files are packed, and the fuses. */
interface BuilderConfiguration {
  readonly files: readonly FilePattern[];
  readonly asarUnpack: readonly string[];
  readonly electronFuses: Readonly<Record<Fuse, boolean>>;
  readonly win: { readonly files: readonly FilePattern[] };
  readonly mac: { readonly files: readonly FilePattern[] };
  readonly linux: { readonly files: readonly FilePattern[] };
}

export type Platform = "win" | "mac" | "linux";
export type Architecture = "x64" | "arm64";

/** The system and processor that this runs on, as the builder calls them. */
export function runningSystem(): readonly [Platform, Architecture] {
  const platform =
    process.platform === "win32" ? "win" : process.platform === "darwin" ? "mac" : "linux";
  return [platform, process.arch === "arm64" ? "arm64" : "x64"];
}

export const configurationPath = "packaging/electron-builder.json";

export function builderConfiguration(root: string): BuilderConfiguration {
  return JSON.parse(readFileSync(join(root, configurationPath), "utf8"));
}

/** Where files of our own can lie that a pattern names; the rest of the checkout is not even looked at. */
const places = ["dist", "assets"];
const single = ["package.json", "LICENSE"];

/**
 * The files that the builder packs for a system. It has two rules: files of our own are packed where a
 * pattern names them; of the packages needed at run time everything is packed but what a pattern leaves
 * out, and there it looks at patterns that begin with "!" and at sets for the project's folder alone.
 *
 * @returns paths from the project's root, in order
 */
export function packedFiles(
  root: string,
  platform: Platform,
  architecture: Architecture,
): string[] {
  const { files, [platform]: own } = builderConfiguration(root);
  // The builder lays a system's own patterns after the common ones.
  const all = [...files, ...own.files];
  const patterns = (chosen: readonly string[]) =>
    chosen.map((pattern) => pattern.replace(/\$\{arch\}/g, architecture));
  const forOwn = patterns(all.filter((each) => typeof each === "string"));
  const forPackages = patterns([
    "**/*",
    ...all.flatMap((each) => {
      if (typeof each === "string") return each.startsWith("!") ? [each] : [];
      return each.from === undefined || each.from === "." ? each.filter : [];
    }),
  ]);
  const ours = [...single, ...places.flatMap((place) => filesUnder(root, place))];
  return [
    ...ours.filter((path) => isChosen(path, forOwn)),
    ...runtimePackages(root)
      .flatMap((place) => filesUnder(root, place))
      .filter((path) => isChosen(path, forPackages)),
  ].sort();
}

/** The folders of the packages that an installation without tools has, with what lies inside them. */
function runtimePackages(root: string): string[] {
  const { packages }: { packages: Record<string, { readonly dev?: boolean }> } = JSON.parse(
    readFileSync(join(root, "package-lock.json"), "utf8"),
  );
  return Object.keys(packages).filter(
    (path) =>
      /^node_modules\/(@[^/]+\/)?[^/]+$/.test(path) &&
      packages[path]?.dev !== true &&
      existsSync(join(root, path)),
  );
}

/** Whether a file stays outside the archive, where the system can load it. */
export const isUnpacked = (path: string, patterns: readonly string[]): boolean =>
  patterns.some((pattern) => matchesGlob(path, pattern));

/** The last pattern that matches a file decides, and one that begins with "!" leaves it out. */
function isChosen(path: string, patterns: readonly string[]): boolean {
  // The builder's patterns match hidden files like any other.
  const shown = path.replace(/(^|\/)\./g, "$1_.");
  let chosen = false;
  for (const pattern of patterns) {
    const isOut = pattern.startsWith("!");
    if (matchesGlob(shown, isOut ? pattern.slice(1) : pattern)) chosen = !isOut;
  }
  return chosen;
}

function filesUnder(root: string, place: string): string[] {
  return readdirSync(join(root, place), { recursive: true, encoding: "utf8" })
    .map((name) => `${place}/${name.replaceAll("\\", "/")}`)
    .filter((path) => statSync(join(root, path)).isFile());
}
