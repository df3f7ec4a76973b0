import { nameKey } from "./name-key.ts";

/**
 * For each name, why it cannot be added as it is: somebody in the group has it (`taken`), an earlier one
 * of the list does (`repeated`), or null where it is free. Names are compared as `nameKey` does.
 *
 * Example: clashes(["Ana", "Ben", "ana"], ["Ben"]) // [null, "taken", "repeated"]
 */
export function clashes(
  names: readonly string[],
  taken: readonly string[],
): ("taken" | "repeated" | null)[] {
  const there = new Set(taken.map(nameKey));
  const listed = new Set<string>();
  return names.map((name) => {
    const key = nameKey(name);
    const isRepeated = listed.has(key);
    listed.add(key);
    return there.has(key) ? "taken" : isRepeated ? "repeated" : null;
  });
}
