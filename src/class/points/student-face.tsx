import type { Student } from "../../../shared/roster/roster.ts";
import { Picture } from "../pictures/picture.tsx";
import { pictureNamed } from "../pictures/picture-names.ts";

/** How students know what is theirs on a shared screen: the picture, the name, or both. */
export function StudentFace({ student }: { student: Pick<Student, "name" | "picture"> }) {
  const picture = pictureNamed(student.picture);
  return (
    <span className="own-face">
      {picture === null ? null : <Picture name={picture} />}
      <span className="own-face-name">{student.name}</span>
    </span>
  );
}
