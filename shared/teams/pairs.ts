/** Two students, by number from 0, for one lesson: who teaches first, and who is taught. */
export interface TutoringPair {
  readonly teacher: number;
  readonly learner: number;
}

export interface TutoringRound {
  readonly pairs: readonly TutoringPair[];
  /** Who sits out where the number of students is odd. */
  readonly out: number | null;
}

/**
 * Pairs for peer tutoring: everybody meets everybody once. With n students, n even, there are n - 1
 * rounds; with n odd there are n, and each student sits out exactly one. Roles alternate as evenly as they
 * can: nobody teaches more than one time more, or less, than they are taught, and with n odd nobody has the same
 * role twice running, the round out left aside; with n even that happens n - 2 times in all.
 *
 * Source: the circle method (Kirkman 1847 Camb Dublin Math J 2:191) with the canonical orientation of de
 * Werra (1981) Scheduling in sports, in Studies on Graphs and Discrete Programming, p. 381; both from
 * memory, their facts held by a test for n = 4 to 30.
 *
 * Example: tutoringRounds(4).length // 3
 *
 * @throws RangeError when students is not a whole number from 2.
 */
export function tutoringRounds(students: number): TutoringRound[] {
  if (!Number.isInteger(students) || students < 2)
    throw new RangeError(`students must be a whole number from 2; got ${students}.`);
  const isOdd = students % 2 === 1;
  // The one in the middle of the circle; for an odd number it is nobody, and whom it meets sits out.
  const around = isOdd ? students : students - 1;
  const middle = around;
  return Array.from({ length: around }, (_, round) => {
    const pairs: TutoringPair[] = [];
    if (!isOdd) {
      pairs.push(
        round % 2 === 0 ? { teacher: round, learner: middle } : { teacher: middle, learner: round },
      );
    }
    for (let step = 1; step <= (around - 1) / 2; step++) {
      const after = (round + step) % around;
      const before = (round - step + around) % around;
      pairs.push(
        step % 2 === 1 ? { teacher: after, learner: before } : { teacher: before, learner: after },
      );
    }
    return { pairs, out: isOdd ? round : null };
  });
}

/**
 * The pairs of a round on a day on which somebody is absent: whoever is left over is paired again, in the
 * order given, whoever has taught less so far teaches; a last one left over sits out.
 *
 * Example: withoutAbsent({ pairs: [{ teacher: 0, learner: 1 }, { teacher: 2, learner: 3 }], out: null },
 *   new Set([1, 3]), new Map()).pairs // [{ teacher: 0, learner: 2 }]
 *
 * @param taught how often each has taught so far; nobody named has not
 */
export function withoutAbsent(
  round: TutoringRound,
  absent: ReadonlySet<number>,
  taught: ReadonlyMap<number, number>,
): TutoringRound {
  const isHere = (student: number) => !absent.has(student);
  const kept = round.pairs.filter(({ teacher, learner }) => isHere(teacher) && isHere(learner));
  const left = round.pairs
    .filter(({ teacher, learner }) => isHere(teacher) !== isHere(learner))
    .map(({ teacher, learner }) => (isHere(teacher) ? teacher : learner));
  if (round.out !== null && isHere(round.out)) left.push(round.out);
  const anew: TutoringPair[] = [];
  for (let at = 0; at + 1 < left.length; at += 2) {
    const [one = 0, other = 0] = left.slice(at, at + 2);
    const isOneFirst = (taught.get(one) ?? 0) <= (taught.get(other) ?? 0);
    anew.push(isOneFirst ? { teacher: one, learner: other } : { teacher: other, learner: one });
  }
  const out = left.length % 2 === 1 ? (left.at(-1) ?? null) : null;
  return { pairs: [...kept, ...anew], out };
}
