import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { root } from "./programs.ts";

/**
 * What a published JSON Schema (`assets/schemas`, draft 2020-12) finds wrong with a file's text; none when
 * it is as described. Ajv reads the schema as any other program would that knows nothing of Pebblechime.
 */
export function schemaErrors(name: "group-record" | "student-record", text: string): string[] {
  const file = join(root, "assets", "schemas", `${name}.schema.json`);
  // The forms of days and moments stand in patterns too, which are checked.
  const ajv = new Ajv2020({ allErrors: true, validateFormats: false });
  const check = ajv.compile(JSON.parse(readFileSync(file, "utf8")));
  check(JSON.parse(text));
  return (check.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
}
