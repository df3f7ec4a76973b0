import { readFileSync } from "node:fs";
import { join } from "node:path";
import { parseSync } from "vite";
import { expect, it } from "vitest";
import { filesUnder, root } from "./imports.ts";

/** Lines of the longest function, closure or component, its comments and blank lines counted. */
const mostLines = 120;

interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly body?: unknown;
}

const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && "type" in value && "start" in value;

/** Every function of a text, with those inside it: where it begins, and how many lines it takes. */
function functionsOf(
  name: string,
  text: string,
): { readonly line: number; readonly lines: number }[] {
  const { program, errors } = parseSync(name, text);
  if (errors.length > 0) throw new Error(`${name}: ${errors[0]?.message}`);
  const lineAt = (offset: number) => text.slice(0, offset).split("\n").length;
  const found: { line: number; lines: number }[] = [];
  const visit = (value: unknown): void => {
    if (typeof value !== "object" || value === null) return;
    if (isNode(value) && /Function/.test(value.type) && isNode(value.body)) {
      const line = lineAt(value.start);
      found.push({ line, lines: lineAt(value.end) - line + 1 });
    }
    for (const each of Object.values(value)) visit(each);
  };
  visit(program);
  return found;
}

const longOnes = (name: string, text: string): string[] =>
  functionsOf(name, text)
    .filter(({ lines }) => lines > mostLines)
    .map(({ line, lines }) => `${name}:${line} has ${lines} lines`);

it("no function is longer than can be read at once", () => {
  const files = ["src", "shared", "electron"].flatMap(filesUnder);
  expect(files.length).toBeGreaterThan(500);
  expect(files.flatMap((file) => longOnes(file, readFileSync(join(root, file), "utf8")))).toEqual(
    [],
  );
});

it("a long one is found, within another and as a component too", () => {
  const inner = `const inner = () => {\n${"  work();\n".repeat(mostLines)}};`;
  expect(longOnes("probe.ts", `function outer() {\n${inner}\n}`)).toEqual([
    "probe.ts:1 has 124 lines",
    "probe.ts:2 has 122 lines",
  ]);
  const component = `export function Page() {\n  return (\n${"    <p />\n".repeat(mostLines)}  );\n}`;
  expect(
    longOnes(
      "probe.tsx",
      component.replaceAll(/(<p \/>\n\s*)+/g, (all) => `<>${all}</>\n`),
    ),
  ).toHaveLength(1);
  expect(longOnes("probe.ts", "function short() {\n  return 1;\n}")).toEqual([]);
});
