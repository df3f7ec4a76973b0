import type { Student } from "../../../shared/roster/roster.ts";
import { Picture } from "../../class/pictures/picture.tsx";
import { pictureNamed } from "../../class/pictures/picture-names.ts";

/** A longer name has two smaller lines, so that Marie-Josephine B. and Marie-Josephine C. are told apart. */
const mostInOneLine = 14;

/** How students know their tiles: the picture, the name, or both. */
export function TileFace({ student }: { student: Pick<Student, "name" | "picture"> }) {
  const picture = pictureNamed(student.picture);
  return (
    <span className="tile-face">
      {picture === null ? null : <Picture name={picture} />}
      <span className={`tile-name ${student.name.length > mostInOneLine ? "tile-name-long" : ""}`}>
        {student.name}
      </span>
    </span>
  );
}
