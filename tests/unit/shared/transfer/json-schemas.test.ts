import { expect, test } from "vitest";
import { z } from "zod";
import { studentRecordSchema } from "../../../../shared/api/transfer.ts";
import { groupRecordSchema } from "../../../../shared/transfer/group-record.ts";

// The published descriptions of the JSON files, in JSON Schema draft 2020-12. After a change of the form,
// run this file with `-u` to write them again.
test.each([
  ["group-record", "A group's record", groupRecordSchema],
  ["student-record", "One student's whole record", studentRecordSchema],
] as const)("%s.schema.json is what the app writes by", async (name, title, schema) => {
  const { $schema, ...rest } = z.toJSONSchema(schema);
  const described = `${JSON.stringify({ $schema, title, ...rest }, null, 2)}\n`;
  await expect(described).toMatchFileSnapshot(`../../../../assets/schemas/${name}.schema.json`);
});
