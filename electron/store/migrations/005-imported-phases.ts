/** Which phases came with an import, so that they go when it is taken back. */
export const importedPhases = `
CREATE TABLE imported_phase (
  phase_id TEXT NOT NULL CONSTRAINT imported_phase_key PRIMARY KEY
    CONSTRAINT imported_phase_of_phase REFERENCES phase (id) ON DELETE CASCADE,
  import_id TEXT NOT NULL
    CONSTRAINT imported_phase_of_import REFERENCES record_import (id) ON DELETE RESTRICT
) STRICT, WITHOUT ROWID;
CREATE INDEX imported_phase_by_import ON imported_phase (import_id);
`;
