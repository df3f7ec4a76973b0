import { readFileSync } from "node:fs";
import { join } from "node:path";
import { listPackage } from "@electron/asar";
import { missingFrom, notAllowed } from "./allow-list.ts";
import type { Architecture, Platform } from "./builder-files.ts";
import { machineOf } from "./machine.ts";
import { budgetBytes, type Packed } from "./pack.ts";

/** The files that an archive says it holds, packed and unpacked, without its folders. */
export function archivedFiles(archive: string): string[] {
  const entries = listPackage(archive, { isPack: false }).map((name) =>
    name.replaceAll("\\", "/").slice(1),
  );
  const folders = new Set(entries.map((entry) => entry.slice(0, entry.lastIndexOf("/"))));
  return entries.filter((entry) => !folders.has(entry));
}

/** What is wrong with what was packed for a system, a line each: size, list, processors of native files. */
export function wrongInPack(
  { archive, bytes }: Packed,
  platform: Platform,
  architecture: Architecture,
): string[] {
  const files = archivedFiles(archive);
  return [
    ...(bytes <= budgetBytes ? [] : ["above the budget"]),
    ...notAllowed(files, platform, architecture).map((file) => `not on the list: ${file}`),
    ...missingFrom(files, platform, architecture).map((file) => `missing: ${file}`),
    ...files
      .filter((file) => file.endsWith(".node"))
      .flatMap((file) => wrongMachine(archive, file, platform, architecture)),
  ];
}

function wrongMachine(
  archive: string,
  file: string,
  platform: Platform,
  architecture: Architecture,
): string[] {
  const machine = machineOf(readFileSync(join(`${archive}.unpacked`, file)));
  // macOS gets one app for both processors, so its files are told apart by their names.
  const processor = platform === "mac" ? file.replace(/.*-(\w+)\.node$/, "$1") : architecture;
  const expected = `${platform} ${processor}`;
  return machine === expected ? [] : [`${file} is for ${machine}, not ${expected}`];
}
