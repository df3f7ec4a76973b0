// node scripts/packaging/bill-of-materials.ts: prints everything that reaches a user, as CycloneDX JSON.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { shippedPackages } from "./notices.ts";

interface Locked {
  readonly version: string;
  readonly integrity?: string;
  readonly license?: string;
}

export interface Component {
  readonly type: "library" | "platform";
  readonly "bom-ref": string;
  readonly name: string;
  readonly version: string;
  readonly scope: "required";
  readonly purl: string;
  readonly licenses: readonly object[];
  readonly hashes: readonly { readonly alg: string; readonly content: string }[];
}

/** What the packages run on: in the installers, and in the package for people with Node alone. */
const platforms = ["electron", "node"];

/** @param time when it is made, as an ISO time; the bill's own date */
export function billOfMaterials(root: string, time: string) {
  const read = (file: string) => JSON.parse(readFileSync(join(root, file), "utf8"));
  const { name, version, license }: { name: string; version: string; license: string } =
    read("package.json");
  const { packages }: { packages: Record<string, Locked> } = read("package-lock.json");
  const component = (type: Component["type"], each: string): Component => {
    const locked = packages[`node_modules/${each}`];
    if (locked === undefined) throw new Error(`${each} is not in package-lock.json.`);
    return { type, ...named(each, locked.version), ...licensed(locked), hashes: hashes(locked) };
  };
  const components = [
    ...platforms.map((each) => component("platform", each)),
    ...shippedPackages(root).map((each) => component("library", each)),
  ];
  return {
    $schema: "http://cyclonedx.org/schema/bom-1.5.schema.json",
    bomFormat: "CycloneDX",
    specVersion: "1.5",
    version: 1,
    metadata: {
      timestamp: time,
      component: { type: "application", ...named(name, version), ...licensed({ license }) },
    },
    components,
    dependencies: [
      {
        ref: named(name, version)["bom-ref"],
        dependsOn: components.map((each) => each["bom-ref"]),
      },
    ],
  };
}

function named(name: string, version: string) {
  const purl = `pkg:npm/${name.replace("@", "%40")}@${version}`;
  return { "bom-ref": purl, name, version, scope: "required" as const, purl };
}

function licensed({ license }: { readonly license?: string }) {
  if (license === undefined) return { licenses: [] };
  // A choice or a sum of licenses is an expression, a single one an id.
  const isExpression = / (OR|AND|WITH) /.test(license);
  return { licenses: [isExpression ? { expression: license } : { license: { id: license } }] };
}

/** The lock file has them in base 64, CycloneDX in base 16. */
function hashes({ integrity }: Locked): Component["hashes"] {
  const [, coded] = /^sha512-(.+)$/.exec(integrity ?? "") ?? [];
  if (coded === undefined) return [];
  return [{ alg: "SHA-512", content: Buffer.from(coded, "base64").toString("hex") }];
}

if (import.meta.main) {
  const root = join(import.meta.dirname, "..", "..");
  const bill = billOfMaterials(root, new Date().toISOString());
  process.stdout.write(`${JSON.stringify(bill, null, 2)}\n`);
}
