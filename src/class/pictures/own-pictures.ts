import type { Student } from "../../../shared/roster/roster.ts";
import { type PictureName, pictureNamed, pictureNames } from "./picture-names.ts";

type Pictured = Pick<Student, "id" | "name" | "picture">;

/** Who has which picture; students without one, or with one this version does not know, are left out. */
export function pictureOwners<One extends Pictured>(
  students: readonly One[],
): ReadonlyMap<PictureName, readonly One[]> {
  const owners = new Map<PictureName, One[]>();
  for (const student of students) {
    const picture = pictureNamed(student.picture);
    if (picture !== null) owners.set(picture, [...(owners.get(picture) ?? []), student]);
  }
  return owners;
}

/** Whether a picture alone tells which student is meant: each has one, and no two the same. */
export function haveOwnPictures(students: readonly Pictured[]): boolean {
  return pictureOwners(students).size === students.length;
}

/** A picture nobody has for each student without one, in their order; who comes too late gets none. */
export function picturesToGive(
  students: readonly Pictured[],
): { readonly id: string; readonly picture: PictureName }[] {
  const owners = pictureOwners(students);
  const free = pictureNames.filter((name) => !owners.has(name));
  const without = students.filter(({ picture }) => pictureNamed(picture) === null);
  return without.flatMap(({ id }, index) => {
    const picture = free[index];
    return picture === undefined ? [] : [{ id, picture }];
  });
}
