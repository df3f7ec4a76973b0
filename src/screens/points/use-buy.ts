import { useState } from "react";
import type { Privilege } from "../../../shared/roster/privilege.ts";
import type { Student } from "../../../shared/roster/roster.ts";
import { useTell } from "../../api/queries.ts";

export interface Bought {
  readonly student: Student;
  readonly privilege: Privilege;
  readonly press: string;
}

export type Buying = ReturnType<typeof useBuy>;

/** One press is one exchange, or takes one back; the last one is kept for the line that says so. */
export function useBuy() {
  const [last, setLast] = useState<Bought | null>(null);
  const tell = useTell((api, { student, privilege, press }: Bought) =>
    api.points.buy({
      studentId: student.id,
      privilegeId: privilege.id,
      price: privilege.price,
      press,
    }),
  );
  const takeBack = useTell((api, { studentId, press }: { studentId: string; press: string }) =>
    api.points.undoBuy({ studentId, press }),
  );
  return {
    last,
    /** Why the newest press did nothing; null when it did what it was for. */
    error: tell.error ?? takeBack.error,
    isUndoing: takeBack.isPending,
    buy(student: Student, privilege: Privilege): void {
      takeBack.reset();
      const bought = { student, privilege, press: crypto.randomUUID() };
      tell.mutate(bought, { onSuccess: () => setLast(bought) });
    },
    undo({ studentId, press }: { studentId: string; press: string }): void {
      tell.reset();
      takeBack.mutate({ studentId, press });
    },
  };
}
