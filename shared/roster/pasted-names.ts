/** How a pasted text was taken apart: the columns of a spreadsheet, or plain names. */
export interface PastedNames {
  readonly names: readonly string[];
  /** `columns` for a spreadsheet's rows, `last-first` for "Last, First" on each line, else `list`. */
  readonly form: "columns" | "last-first" | "list";
  /** The first row, where it was a heading and so names nobody. */
  readonly heading: string | null;
  /** Whether columns of numbers or addresses stood beside the names and were left out. */
  readonly leftOut: boolean;
}

const headings = {
  first: ["first", "first name", "given name", "forename", "nombre", "nombres", "nombre de pila"],
  last: ["last", "last name", "surname", "family name", "apellido", "apellidos"],
  whole: [
    "name",
    "student",
    "students",
    "pupil",
    "full name",
    "alumno",
    "alumna",
    "alumnos",
    "estudiante",
  ],
} as const;
/** Headings of columns that hold no name. */
const otherHeadings = [
  "id",
  "number",
  "no",
  "nr",
  "nº",
  "email",
  "e mail",
  "mail",
  "grade",
  "class",
  "dob",
  "date of birth",
  "birthday",
  "número",
  "correo",
  "curso",
  "clase",
];

/**
 * The names in a pasted text, one student each: a name on each line, "Last, First" on each line, names
 * divided by commas or semicolons, or a spreadsheet's rows with tabs, semicolons or commas between the
 * columns. Blank entries, list numbers such as "3." and columns without letters are left out, spaces are
 * tidied. Names keep their spelling; repeated ones stay, so that somebody can decide.
 *
 * Example: pastedNames("Reed, Ana\nMoss, Ben").names // ["Ana Reed", "Ben Moss"]
 */
export function pastedNames(text: string): PastedNames {
  const lines = text
    .split(/\r\n|\r|\n/)
    .map((line) => line.replace(/^[^\S\t]*\d+[.)]\s*/, ""))
    .filter((line) => line.trim() !== "");
  const columns = asColumns(lines);
  if (columns !== null) return fromColumns(columns);
  const areReversed = lines.length > 0 && lines.every((line) => /^[^,;]+,[^,;]+$/.test(line));
  if (areReversed) {
    const names = lines.map((line) => {
      const [last = "", first = ""] = line.split(",");
      return tidy(`${first} ${last}`);
    });
    return { names, form: "last-first", heading: null, leftOut: false };
  }
  const names = lines
    .flatMap((line) => line.split(/[,;]/))
    .map(tidy)
    .filter(hasLetter);
  return { names, form: "list", heading: null, leftOut: false };
}

/** The cells of a text that is a table: every line has the same columns, two or more; null for others. */
function asColumns(lines: readonly string[]): string[][] | null {
  for (const sign of ["\t", ";", ","]) {
    const cells = lines.map((line) => line.split(sign).map(tidy));
    const width = cells[0]?.length ?? 0;
    const isTable = width > 1 && cells.every((row) => row.length === width);
    // "Ana, Ben, Cleo" on one line is a list; "Last, First" has a reading of its own.
    const isPlain = sign !== "\t" && (lines.length < 2 || (sign === "," && width === 2));
    if (isTable && !isPlain) return cells;
    if (isTable && sign === "," && width === 2 && headingOf(cells[0] ?? []) !== null) return cells;
  }
  return null;
}

function fromColumns(rows: readonly (readonly string[])[]): PastedNames {
  const known = headingOf(rows[0] ?? []);
  const people = known === null ? rows : rows.slice(1);
  const width = rows[0]?.length ?? 0;
  const named = Array.from({ length: width }, (_, at) => at).filter((at) =>
    people.some((row) => isNameLike(row[at] ?? "")),
  );
  const used = known?.columns ?? named;
  const names = people
    .map((row) => tidy(used.map((at) => reversed(row[at] ?? "")).join(" ")))
    .filter(hasLetter);
  return {
    names,
    form: "columns",
    heading: known === null ? null : (rows[0] ?? []).filter((cell) => cell !== "").join(", "),
    leftOut: used.length < width,
  };
}

/** Which columns a heading row says the name is in, the given name first; null where it is no heading. */
function headingOf(row: readonly string[]): { columns: readonly number[] } | null {
  const words = row.map((cell) =>
    cell
      .toLowerCase()
      .replace(/[^\p{L}\p{N}º]+/gu, " ")
      .trim(),
  );
  const find = (known: readonly string[]) => words.findIndex((word) => known.includes(word));
  const [first, last, whole] = [find(headings.first), find(headings.last), find(headings.whole)];
  if (last >= 0 && first >= 0) return { columns: [first, last] };
  // "Nombre" beside "Apellidos" is found above; alone it is the whole name.
  if (whole >= 0 && last >= 0) return { columns: [whole, last] };
  if (whole >= 0) return { columns: [whole] };
  if (first >= 0) return { columns: [first] };
  if (last >= 0 && find(otherHeadings) >= 0) return { columns: [last] };
  return null;
}

/** "Last, First" within one cell reads as it is spoken. */
function reversed(cell: string): string {
  const [last = "", first] = cell.split(",");
  return first === undefined ? cell : tidy(`${first} ${last}`);
}

const tidy = (text: string): string =>
  text
    .replace(/^"(.*)"$/, "$1")
    .replace(/\s+/g, " ")
    .trim();
const hasLetter = (text: string): boolean => /\p{L}/u.test(text);
const isNameLike = (cell: string): boolean => hasLetter(cell) && !/[@\d]/.test(cell);
