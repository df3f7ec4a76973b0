import { emptySession, type SessionState } from "./state.ts";

/**
 * A state that is being written. What it shares with an earlier state is copied before it is written into
 * for the first time, so that the earlier state stays what it was and a long log copies nothing twice.
 */
export interface Draft {
  readonly state: { -readonly [Field in keyof SessionState]: SessionState[Field] };
  /** The maps that no earlier state holds. */
  readonly own: Set<unknown>;
}

/** A draft that goes on from a state. */
export const draftOf = (from: SessionState = emptySession): Draft => ({
  state: { ...from },
  own: new Set(),
});

/** A map to write into with the entries of one that an earlier state may hold; put it in that one's place. */
export function writable<Key, Value>(
  { own }: Draft,
  map: ReadonlyMap<Key, Value> | undefined,
): Map<Key, Value> {
  if (isOwn(own, map)) return map;
  const copy = new Map(map);
  own.add(copy);
  return copy;
}

const isOwn = <Key, Value>(
  own: Draft["own"],
  map: ReadonlyMap<Key, Value> | undefined,
): map is Map<Key, Value> => own.has(map);
