import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { describe, expect, it } from "vitest";
import { firstPlan } from "../../../shared/plan/plan.ts";
import { randomStream } from "../../../shared/schedule/stream.ts";
import { filesUnder, root } from "./imports.ts";

/** One `Example:` line of a docstring: an expression and what it gives. */
interface Example {
  readonly file: string;
  readonly code: string;
  readonly value: string;
}

/** Rooms in which every example must run as it stands; elsewhere one may speak of values it does not make. */
const strictRooms = ["statistics", "schedule", "calendar", "roster", "teams", "home"];

/** What examples may use beside the exports of their own file. */
const around = { firstPlan, randomStream };

function examplesIn(file: string): Example[] {
  const text = readFileSync(join(root, file), "utf8");
  const found: Example[] = [];
  for (const [comment] of text.matchAll(/\/\*\*[\s\S]*?\*\//g)) {
    const plain = comment.replace(/^\s*\*? ?/gm, "").replace(/^\/\*\*|\*\/$/g, "");
    const [, example] = /Example: ([\s\S]*?)(?:\n\s*\n|\n@|$)/.exec(plain) ?? [];
    if (example === undefined) continue;
    const [code = "", value = ""] = example.replaceAll("`", "").replace(/\s+/g, " ").split(" // ");
    found.push({ file, code: code.trim(), value: value.trim() });
  }
  return found;
}

/** Whether a found value is the one written down: numbers to the digits that are printed. */
function isAsWritten(found: unknown, written: unknown, text: string): boolean {
  if (typeof written === "number" && typeof found === "number") {
    const decimals = /\.(\d+)/.exec(text)?.[1]?.length ?? (Number.isInteger(found) ? 0 : 1);
    return Math.abs(found - written) <= 0.5 * 10 ** -decimals + 1e-12;
  }
  if (Array.isArray(written) && (Array.isArray(found) || ArrayBuffer.isView(found))) {
    const list: unknown[] = Array.from(found as ArrayLike<unknown>);
    const texts = text.replace(/[[\]\s]/g, "").split(",");
    return (
      list.length === written.length &&
      list.every((each, at) => isAsWritten(each, written[at], texts[at] ?? ""))
    );
  }
  if (typeof written === "object" && written !== null) {
    return Object.entries(written).every(([key, each]) => {
      const printed = new RegExp(`${key}: (-?[\\d.]+)`).exec(text)?.[1] ?? "";
      return isAsWritten(Reflect.get(Object(found), key), each, printed);
    });
  }
  return Object.is(found, written);
}

function evaluate(code: string, scope: object): unknown {
  return new Function(...Object.keys(scope), `return (${code});`)(...Object.values(scope));
}

/** The value written at the start of a remark, as far as it can be read as one. */
function readValue(text: string): { text: string; value: unknown } | null {
  for (let end = text.length; end > 0; end = text.lastIndexOf(" ", end - 1)) {
    const part = text.slice(0, end).replace(/[,:;]$/, "");
    // "0.0222, 1 of the 45 ways": what follows a number after a comma is a remark.
    if (/^-?[\d.]+, /.test(part)) continue;
    try {
      return { text: part, value: evaluate(part, {}) };
    } catch {
      // Words follow the value; try without the last one.
    }
  }
  return null;
}

const all = filesUnder("shared").flatMap(examplesIn);
const roomOf = ({ file }: Example) => file.split("/")[1] ?? "";

/** Functions that work on what another one gives: an example would be longer than they are. */
const withoutExample = [
  "blockCatch",
  "changesTold",
  "drawCues",
  "fitBetweenCases",
  "listenerEdges",
  "probeDays",
  "sessionPrecision",
  "statesOfLaw",
  "statesOfWaits",
  "varianceInformation",
];

describe("examples in docstrings", () => {
  it("stand at each exported statistic, schedule and calendar function", () => {
    const missing = ["statistics", "schedule", "calendar"].flatMap((room) =>
      filesUnder(`shared/${room}`).flatMap((file) => {
        const text = readFileSync(join(root, file), "utf8");
        const exported =
          /(\/\*\*(?:(?!\*\/)[\s\S])*?\*\/\s*)?export (?:function (\w+)|const (\w+) = (?:\(|<))/g;
        return [...text.matchAll(exported)]
          .filter(([, comment = ""]) => !comment.includes("Example:"))
          .map(([, , name, constant]) => name ?? constant ?? "");
      }),
    );
    expect(missing.filter((name) => !withoutExample.includes(name))).toEqual([]);
  });

  it("are there", () => expect(all.length).toBeGreaterThan(80));

  it.each(all.map((example) => [example.file, example.code, example] as const))(
    "%s: %s",
    async (file, code, example) => {
      const module: object = await import(pathToFileURL(join(root, file)).href);
      let found: unknown;
      try {
        found = evaluate(code, { ...around, ...module });
      } catch (error) {
        // It speaks of values that the reader has to imagine.
        const isIllustration = error instanceof ReferenceError || error instanceof SyntaxError;
        expect(isIllustration && !strictRooms.includes(roomOf(example)), String(error)).toBe(true);
        return;
      }
      const written = readValue(example.value);
      if (written === null) return;
      expect(
        isAsWritten(found, written.value, written.text),
        `gives ${JSON.stringify(found)}, and ${written.text} is written`,
      ).toBe(true);
    },
  );
});
