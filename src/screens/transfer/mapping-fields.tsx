import type { ImportRow } from "../../../shared/api/transfer.ts";
import { Choices, Pick } from "../../parts/field.tsx";
import { useSay } from "../../text/text.tsx";
import {
  type ImportField,
  type ImportKind,
  importFields,
  type Mapping,
  mappingProblems,
} from "../../transfer/mapping.ts";

const none = "none";

interface MappingFieldsProps {
  kind: ImportKind;
  header: readonly string[];
  mapping: Mapping;
  source: ImportRow["source"];
  onMapping: (mapping: Mapping) => void;
  onSource: (source: ImportRow["source"]) => void;
}

/** Which column of the file is which. */
export function MappingFields(props: MappingFieldsProps) {
  const { kind, header, mapping, source, onMapping, onSource } = props;
  const say = useSay();
  const { absent, shared } = mappingProblems(mapping, kind);
  const columns = header.map((name, at) => ({
    value: String(at),
    label: say("transfer.column", { number: at + 1, name }),
  }));
  const problemOf = (field: ImportField) => {
    if (absent.includes(field)) return say("transfer.columnNeeded");
    return shared.includes(field) ? say("transfer.columnShared") : undefined;
  };
  return (
    <section className="transfer-mapping" aria-label={say("transfer.mapping")}>
      <h3>{say("transfer.mapping")}</h3>
      <div className="transfer-columns">
        {importFields[kind].map((field) => (
          <Pick
            key={field}
            label={say(`transfer.field.${field}`)}
            value={String(mapping[field] ?? none)}
            choices={[{ value: none, label: say("transfer.noColumn") }, ...columns]}
            problem={problemOf(field)}
            onChange={(value) =>
              onMapping({ ...mapping, [field]: value === none ? null : Number(value) })
            }
          />
        ))}
      </div>
      {kind !== "sessions" || mapping.source !== null ? null : (
        <Choices
          label={say("transfer.whoRecorded")}
          inRow
          value={source}
          choices={[
            { value: "self", label: say("transfer.source.self") },
            { value: "observer", label: say("transfer.source.observer") },
          ]}
          onChange={onSource}
        />
      )}
    </section>
  );
}
