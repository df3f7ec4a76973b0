import { randomInt } from "node:crypto";

/** No letter or figure that reads like another one: a seed is copied by hand from paper. */
const characters = "abcdefghjkmnpqrstuvwxyz23456789";
const length = 10;

/** A fresh session seed of about 49 bits, from the system's own randomness. */
export function freshSeed(): string {
  return Array.from({ length }, () => characters[randomInt(characters.length)]).join("");
}
