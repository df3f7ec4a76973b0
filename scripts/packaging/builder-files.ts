import { readdirSync, readFileSync, statSync } from "node:fs";
import { join, matchesGlob } from "node:path";

/** What of the builder's configuration decides which files are packed. */
interface BuilderConfiguration {
  readonly files: readonly string[];
  readonly asarUnpack: readonly string[];
  readonly win: { readonly files: readonly string[] };
  readonly mac: { readonly files: readonly string[] };
  readonly linux: { readonly files: readonly string[] };
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

/** Folders and files in which packed files can lie; the rest of the checkout is not even looked at. */
const places = ["dist", "assets", "node_modules/better-sqlite3", "node_modules/libflacjs"];
const single = ["package.json", "LICENSE"];

/**
 * The files that the builder packs for a system, by the patterns of its configuration: the last one that
 * matches a file decides, and one that begins with "!" leaves it out.
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
  const patterns = [...files, ...own.files].map((pattern) =>
    pattern.replace(/\$\{arch\}/g, architecture),
  );
  return [...single, ...places.flatMap((place) => filesUnder(root, place))]
    .filter((path) => isChosen(path, patterns))
    .sort();
}

/** Whether a file stays outside the archive, where the system can load it. */
export const isUnpacked = (path: string, patterns: readonly string[]): boolean =>
  patterns.some((pattern) => matchesGlob(path, pattern));

function isChosen(path: string, patterns: readonly string[]): boolean {
  let chosen = false;
  for (const pattern of patterns) {
    const isOut = pattern.startsWith("!");
    if (matchesGlob(path, isOut ? pattern.slice(1) : pattern)) chosen = !isOut;
  }
  return chosen;
}

function filesUnder(root: string, place: string): string[] {
  return readdirSync(join(root, place), { recursive: true, encoding: "utf8" })
    .map((name) => `${place}/${name.replaceAll("\\", "/")}`)
    .filter((path) => statSync(join(root, path)).isFile());
}
