/** What a file may hold: past sessions, or a class of students. */
export const importKinds = ["sessions", "roster"] as const;
export type ImportKind = (typeof importKinds)[number];

/** What a file can say, in the order in which the columns are asked for. */
export const importFields = {
  sessions: [
    "student",
    "startedAt",
    "source",
    "on",
    "off",
    "missing",
    "phase",
    "subject",
    "assigned",
    "completed",
    "correct",
  ],
  roster: ["student", "target", "picture"],
} as const;
export type ImportField = (typeof importFields)[ImportKind][number];

/** Without these nothing can be brought in. */
const neededFields: Readonly<Record<ImportKind, readonly ImportField[]>> = {
  sessions: ["student", "startedAt", "on", "off"],
  roster: ["student"],
};

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
  phase: ["phase", "condition", "fase", "condición"],
  subject: ["subject", "lesson", "asignatura", "materia"],
  assigned: ["assigned", "items", "asignados", "ejercicios"],
  completed: ["completed", "done", "completados", "hechos"],
  correct: ["correct", "right", "correctos", "aciertos"],
  target: ["target", "own target", "objetivo", "objetivo propio"],
  picture: ["picture", "image", "dibujo", "imagen"],
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
    phase: place("phase"),
    subject: place("subject"),
    assigned: place("assigned"),
    completed: place("completed"),
    correct: place("correct"),
    target: place("target"),
    picture: place("picture"),
  };
}

/** Names without anything that tells of a session are a class. */
export const guessKind = ({ student, startedAt, on, off }: Mapping): ImportKind =>
  student !== null && startedAt === null && on === null && off === null ? "roster" : "sessions";

/** The needed fields that no column was chosen for, and those that share a column with another. */
export function mappingProblems(
  mapping: Mapping,
  kind: ImportKind,
): {
  readonly absent: readonly ImportField[];
  readonly shared: readonly ImportField[];
} {
  const fields: readonly ImportField[] = importFields[kind];
  const absent = neededFields[kind].filter((field) => mapping[field] === null);
  const shared = fields.filter((field) =>
    fields.some(
      (other) => other !== field && mapping[field] !== null && mapping[other] === mapping[field],
    ),
  );
  return { absent, shared };
}
