import { cpSync, mkdirSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { createPackageWithOptions } from "@electron/asar";
import {
  type Architecture,
  builderConfiguration,
  isUnpacked,
  type Platform,
  packedFiles,
} from "./builder-files.ts";

/** Of all files, without Electron; common practice, no source. */
export const budgetBytes = 25 * 1024 * 1024;

/** An archive as the builder makes it, without Electron around it. */
export interface Packed {
  /** Path of app.asar; what the system must load lies in app.asar.unpacked beside it. */
  readonly archive: string;
  readonly files: readonly string[];
  /** Bytes of all files, packed and unpacked. */
  readonly bytes: number;
}

/**
 * Packs the built app for a system into an archive.
 *
 * @param folder an empty folder to work in
 */
export async function pack(
  root: string,
  folder: string,
  platform: Platform,
  architecture: Architecture,
): Promise<Packed> {
  const files = packedFiles(root, platform, architecture);
  const staged = join(folder, "staged");
  let bytes = 0;
  for (const path of files) {
    mkdirSync(dirname(join(staged, path)), { recursive: true });
    cpSync(join(root, path), join(staged, path));
    bytes += statSync(join(root, path)).size;
  }
  const { asarUnpack } = builderConfiguration(root);
  const outside = files.filter((path) => isUnpacked(path, asarUnpack));
  const archive = join(folder, "app.asar");
  await createPackageWithOptions(staged, archive, {
    // The library matches whole paths of the staged folder; in a pattern "\\" is no separator.
    unpack: `${staged.replaceAll("\\", "/")}/{${outside.join(",")}}`,
  });
  return { archive, files, bytes };
}
