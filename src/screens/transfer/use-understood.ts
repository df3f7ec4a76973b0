import { useMemo } from "react";
import type { ImportRow, RosterRow } from "../../../shared/api/transfer.ts";
import { useStudents } from "../../api/queries.ts";
import { pictureLabel, pictureNames } from "../../class/pictures/picture-names.ts";
import { useSay } from "../../text/text.tsx";
import { type ImportKind, type Mapping, mappingProblems } from "../../transfer/mapping.ts";
import type { ReadLines } from "../../transfer/read-each.ts";
import { readRoster } from "../../transfer/read-roster.ts";
import { readRows } from "../../transfer/read-rows.ts";
import type { Table } from "../../transfer/read-table.ts";

/** A file as it was understood. */
export type Understood =
  | { readonly kind: "sessions"; readonly read: ReadLines<ImportRow> }
  | { readonly kind: "roster"; readonly read: ReadLines<RosterRow> };

interface Choice {
  readonly kind: ImportKind;
  readonly mapping: Mapping;
  /** Who recorded, when no column says so. */
  readonly source: ImportRow["source"];
}

/** Reads a table as chosen; null while a needed column is not chosen, or one is chosen twice. */
export function useUnderstood(
  table: Table,
  { kind, mapping, source }: Choice,
  taken: readonly string[],
): Understood | null {
  const say = useSay();
  const { absent, shared } = mappingProblems(mapping, kind);
  const isMapped = absent.length === 0 && shared.length === 0;
  return useMemo(() => {
    if (!isMapped) return null;
    if (kind === "sessions") {
      return { kind, read: readRows(table, { mapping, source, nowMs: Date.now() }) };
    }
    const pictures = new Map(
      pictureNames.flatMap((name) => [
        [name, name],
        [say(pictureLabel(name)).toLowerCase(), name],
      ]),
    );
    return { kind, read: readRoster(table, { mapping, taken, pictures }) };
  }, [isMapped, kind, table, mapping, source, taken, say]);
}

/** The names of a group's students, archived ones included. */
export function useTakenNames(groupId: string): readonly string[] {
  const present = useStudents(groupId).data;
  const archived = useStudents(groupId, true).data;
  return useMemo(
    () => [...(present ?? []), ...(archived ?? [])].map(({ name }) => name),
    [present, archived],
  );
}
