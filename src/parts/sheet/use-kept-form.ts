import { useState } from "react";

/** Where a window keeps what is being written, until it is saved, put away, or the window closes. */
const place = (name: string): string => `pebblechime.writing/${name}`;

function keptOf(name: string): object | null {
  try {
    const kept: unknown = JSON.parse(sessionStorage.getItem(place(name)) ?? "null");
    return typeof kept === "object" ? kept : null;
  } catch {
    return null;
  }
}

/** A window that can keep no more goes on without: what is written still stands on the screen. */
function keep(name: string, facts: object): void {
  try {
    sessionStorage.setItem(place(name), JSON.stringify(facts));
  } catch {
    sessionStorage.removeItem(place(name));
  }
}

/** Whether something is being written under this name in this window. */
export const isFormKept = (name: string): boolean => keptOf(name) !== null;

/** Forgets what was being written under names that begin with this id; all of it for an empty one. */
export function forgetForms(id: string): void {
  const names = Array.from({ length: sessionStorage.length }, (_, at) => sessionStorage.key(at));
  for (const name of names) if (name?.startsWith(place(id))) sessionStorage.removeItem(name);
}

export interface KeptForm<Facts> {
  readonly facts: Facts;
  /** Whether it goes on from what was being written when the page was loaded again or left. */
  readonly wasKept: boolean;
  readonly change: (part: Partial<Facts>) => void;
  /** Begins again from what is known, and keeps nothing. */
  readonly begin: (facts: Facts) => void;
}

/**
 * A form that a reload, or a look at another page, does not empty: this window keeps what was written, and no
 * other one sees it.
 *
 * @param name unlike that of any other form; begins with the id of the student or group it is about
 * @param first what the form begins from
 */
export function useKeptForm<Facts extends object>(name: string, first: Facts): KeptForm<Facts> {
  const [wasKept, setWasKept] = useState(() => isFormKept(name));
  const [facts, setFacts] = useState<Facts>(() => ({ ...first, ...keptOf(name) }));
  return {
    facts,
    wasKept,
    change(part) {
      setFacts((now) => {
        const next = { ...now, ...part };
        keep(name, next);
        return next;
      });
    },
    begin(from) {
      sessionStorage.removeItem(place(name));
      setWasKept(false);
      setFacts(from);
    },
  };
}
