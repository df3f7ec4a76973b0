import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { FuseV1Options, FuseVersion, flipFuses, getCurrentFuseWire } from "@electron/fuses";
import { Ajv } from "ajv";
import type { Fuse } from "./builder-files.ts";

/** What the builder's own schema (packaging/schema/README.md) says against a configuration. */
export function schemaErrors(root: string, configuration: object): string[] {
  const path = join(root, "packaging/schema/electron-builder-26.17.0.json");
  const ajv = new Ajv({ strict: false, allErrors: true });
  ajv.validate(JSON.parse(readFileSync(path, "utf8")), configuration);
  return (ajv.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}

/**
 * What every installer must have, a byte a fuse in the order of Electron's documentation. The ninth, of
 * WebAssembly's trap handlers, is not in the builder's schema and stays as Electron ships it.
 */
export const wantedFuses = "010011001";

/**
 * The fuses' bytes as they come to stand in a program, by the library that the builder uses.
 *
 * @param wanted by the names of the builder's configuration
 * @returns run as Node, cookies, Node options, inspect, integrity, only asar, own snapshot, extra file
 *   rights, trap handlers: "0" for off and "1" for on
 */
export async function writtenFuses(wanted: Readonly<Record<Fuse, boolean>>): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), "pebblechime-fuses-"));
  try {
    const path = join(folder, "program");
    writeFileSync(path, programWithFuses());
    await flipFuses(path, {
      version: FuseVersion.V1,
      [FuseV1Options.RunAsNode]: wanted.runAsNode,
      [FuseV1Options.EnableCookieEncryption]: wanted.enableCookieEncryption,
      [FuseV1Options.EnableNodeOptionsEnvironmentVariable]:
        wanted.enableNodeOptionsEnvironmentVariable,
      [FuseV1Options.EnableNodeCliInspectArguments]: wanted.enableNodeCliInspectArguments,
      [FuseV1Options.EnableEmbeddedAsarIntegrityValidation]:
        wanted.enableEmbeddedAsarIntegrityValidation,
      [FuseV1Options.OnlyLoadAppFromAsar]: wanted.onlyLoadAppFromAsar,
      [FuseV1Options.LoadBrowserProcessSpecificV8Snapshot]:
        wanted.loadBrowserProcessSpecificV8Snapshot,
      [FuseV1Options.GrantFileProtocolExtraPrivileges]: wanted.grantFileProtocolExtraPrivileges,
    });
    const { version: _, ...wire } = await getCurrentFuseWire(path);
    return Object.keys(wire)
      .map(Number)
      .sort((one, other) => one - other)
      .map((fuse) => String.fromCharCode(Number(Reflect.get(wire, fuse))))
      .join("");
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** As Electron comes: "0" and "1" are off and on by its documentation; which are on is from memory. */
const shippedFuses = "101100011";

/** What Electron's program holds: the sentinel, the wire's version, its length, then a byte a fuse. */
function programWithFuses(): Buffer {
  const sentinel = Buffer.from("dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX", "latin1");
  return Buffer.concat([
    Buffer.alloc(64),
    sentinel,
    Buffer.from([1, shippedFuses.length]),
    Buffer.from(shippedFuses),
    Buffer.alloc(64),
  ]);
}
