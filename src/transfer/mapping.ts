/** What a file of earlier records can say, in the order in which the columns are asked for. */
export const importFields = ["student", "startedAt", "source", "on", "off", "missing"] as const;
export type ImportField = (typeof importFields)[number];

/** Without these nothing can be brought in. */
export const neededFields = ["student", "startedAt", "on", "off"] as const;

/** Which column holds which field, from 0; null for a field that no column has. */
export type Mapping = Readonly<Record<ImportField, number | null>>;

/** Headings by which a column is recognised, in small letters with spaces for signs. */
const headings: Readonly<Record<ImportField, readonly string[]>> = {
  student: ["student", "name", "pupil", "child", "alumno", "alumna", "nombre", "estudiante"],
  startedAt: ["started at", "start", "started", "date time", "time", "inicio", "fecha y hora"],
  source: ["source", "who", "recorder", "origen", "fuente"],
  on: ["on task", "on", "working", "yes", "en la tarea", "trabajando", "sí", "si"],
  off: ["off task", "off", "not working", "no", "fuera de la tarea", "sin trabajar"],
  missing: ["no mark", "missing", "blank", "sin marca", "en blanco"],
};

/** The mapping that the headings suggest; the teacher has the last word. */
export function guessMapping(header: readonly string[]): Mapping {
  const names = header.map((name) =>
    name
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, " ")
      .trim(),
  );
  const place = (field: ImportField): number | null => {
    for (const heading of headings[field]) {
      const at = names.indexOf(heading);
      if (at >= 0) return at;
    }
    return null;
  };
  return {
    student: place("student"),
    startedAt: place("startedAt"),
    source: place("source"),
    on: place("on"),
    off: place("off"),
    missing: place("missing"),
  };
}

/** The needed fields that no column was chosen for, and those that share a column with another. */
export function mappingProblems(mapping: Mapping): {
  readonly absent: readonly ImportField[];
  readonly shared: readonly ImportField[];
} {
  const absent = neededFields.filter((field) => mapping[field] === null);
  const shared = importFields.filter((field) =>
    importFields.some(
      (other) => other !== field && mapping[field] !== null && mapping[other] === mapping[field],
    ),
  );
  return { absent, shared };
}
