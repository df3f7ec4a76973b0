import type { MessageId } from "../../text/catalogue.ts";

/** The built-in pictures that a student can choose beside a name. */
export const pictureNames = [
  "leaf",
  "kite",
  "shell",
  "star",
  "boat",
  "fish",
  "bird",
  "cup",
  "key",
  "mushroom",
  "snail",
  "cloud",
  "moon",
  "acorn",
  "umbrella",
  "lantern",
  "apple",
  "bell",
  "anchor",
  "pine",
  "sun",
  "house",
  "flower",
  "pencil",
  "book",
  "drum",
  "hat",
  "cactus",
  "butterfly",
  "balloon",
  "clock",
  "parcel",
  "carrot",
  "mountain",
  "rainbow",
  "boot",
  "scissors",
  "turtle",
  "mitten",
  "wheel",
] as const;
export type PictureName = (typeof pictureNames)[number];

/** The picture that a stored name means; null for none, and for one that this version does not have. */
export function pictureNamed(name: string | null): PictureName | null {
  return pictureNames.find((each) => each === name) ?? null;
}

/** The message that names a picture. */
export const pictureLabel = (name: PictureName): MessageId => `picture.${name}`;
