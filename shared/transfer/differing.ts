/**
 * Finds, one after the other, the items that say something else than the first of their kind that says
 * anything: a second subject of a session, a second phase of a day.
 *
 * @param kindOf items of the same kind ought to say the same
 * @param wordOf what an item says; empty says nothing and never differs
 * @returns a filter for one pass over the items, in order
 */
export function differing<Item>(
  kindOf: (item: Item) => string,
  wordOf: (item: Item) => string,
): (item: Item) => boolean {
  const first = new Map<string, string>();
  return (item) => {
    const word = wordOf(item);
    if (word === "") return false;
    const kind = kindOf(item);
    const said = first.get(kind);
    if (said === undefined) first.set(kind, word);
    return said !== undefined && said !== word;
  };
}
