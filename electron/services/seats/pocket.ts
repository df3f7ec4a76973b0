import { timingSafeEqual } from "node:crypto";
import type { Session } from "../../../shared/api/sessions.ts";
import { takesPoints } from "../../../shared/plan/earning.ts";
import type { PocketPlace, PocketRefusal } from "../../../shared/seats/message.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import type { Joined, SeatLine, SeatWord } from "../../seats/room.ts";
import type { Store } from "../../store/store.ts";
import type { DesktopClock } from "../base/clock.ts";
import { Refusal } from "../base/refusal.ts";
import { sessionStudents } from "../live/session-summary.ts";
import type { SeatCodes } from "./seat-codes.ts";

/** Giving and taking of points, as the app's own handlers do it, with the guard. */
export interface Pocket {
  give(sessionId: string, studentId: string, amount: number, press: string): Promise<void>;
  take(sessionId: string, studentId: string, press: string): Promise<void>;
}

interface PocketOptions {
  readonly store: Store;
  readonly codes: SeatCodes;
  readonly clock: Pick<DesktopClock, "monotonicMs" | "speed">;
  readonly givePoints: Pocket;
  readonly mayName: () => boolean;
}

/** Places side by side where the room's plan says nothing; common practice, no source. */
const usualInRow = 6;

const refusals: Readonly<Record<string, PocketRefusal>> = {
  "points-off": "points-off",
  "points-taking-off": "taking-off",
  "points-not-agreed": "not-agreed",
  "taking-not-agreed": "not-agreed",
  "session-not-running": "no-session",
  "session-ended": "no-session",
  "student-set-aside": "unknown-place",
  "points-stopped": "stopped",
  "points-too-soon": "too-soon",
  "points-none-left": "none-left",
  "points-two-to-one-day": "two-to-one",
  "points-two-to-one-lately": "two-to-one",
};

/**
 * The adult's phone: points given and taken by place in the room. It opens with a code of its own that
 * stands on the private strip alone and is drawn anew whenever seats are opened; a seat's code opens no
 * pocket page, and this code opens no seat.
 */
export function pocketPage(
  { store, codes, clock, givePoints, mayName }: PocketOptions,
  present: () => { readonly session: Session; readonly state: SessionState } | null,
) {
  let code = codes.make();
  let phone: SeatLine | null = null;
  let told = "";

  function placesNow(): { readonly studentId: string; readonly place: PocketPlace }[] {
    const now = present();
    if (now === null || now.state.status === "ended") return [];
    const inRow = store.settings.get().seatsInRow[now.session.groupId] ?? usualInRow;
    return sessionStudents(store, now.session).flatMap(({ id, name }, index) => {
      // Whoever is absent leaves an empty place; nobody else moves.
      if (now.state.setAside.has(id)) return [];
      const place: PocketPlace = {
        place: index + 1,
        row: Math.floor(index / inRow) + 1,
        column: (index % inRow) + 1,
        ...(mayName() ? { name } : {}),
      };
      return [{ studentId: id, place }];
    });
  }

  function tell(): void {
    if (phone === null) return;
    const { language, points } = store.settings.get();
    const earning = present()?.session.plan.earning;
    const earns = points && earning?.kind !== "none";
    const takes = earns && earning !== undefined && takesPoints(earning);
    const places = placesNow().map(({ place }) => place);
    const message = { kind: "places", language, points: earns, takes, places } as const;
    const text = JSON.stringify(message);
    if (text === told) return;
    told = text;
    phone.tell(message);
  }

  async function act(
    line: SeatLine,
    word: Extract<SeatWord, { kind: "give" | "take" }>,
  ): Promise<void> {
    const refuse = (why: PocketRefusal) => line.tell({ kind: "refused", press: word.press, why });
    const now = present();
    if (now === null) return refuse("no-session");
    if (!store.settings.get().points) return refuse("points-off");
    const at = placesNow().find(({ place }) => place.place === word.place);
    if (at === undefined) return refuse("unknown-place");
    try {
      if (word.kind === "give") {
        await givePoints.give(now.session.id, at.studentId, word.amount, word.press);
      } else await givePoints.take(now.session.id, at.studentId, word.press);
      line.tell({ kind: "done", press: word.press });
    } catch (error) {
      refuse(error instanceof Refusal ? (refusals[error.code] ?? "not-kept") : "not-kept");
    }
  }

  return {
    code: () => code,
    isJoined: () => phone !== null,
    renew(): void {
      code = codes.make();
    },
    isCode: (typed: string): boolean =>
      typed.length === code.length && timingSafeEqual(Buffer.from(typed), Buffer.from(code)),
    join(line: SeatLine): Joined {
      phone?.close("elsewhere");
      phone = line;
      told = "";
      tell();
      return {
        hear(word) {
          switch (word.kind) {
            case "alive":
            case "ready":
              return true;
            case "clock":
              line.tell({ kind: "clock", t: word.t, at: clock.monotonicMs() / clock.speed });
              return true;
            case "give":
            case "take":
              void act(line, word);
              return true;
            default:
              return false;
          }
        },
        gone() {
          if (phone === line) phone = null;
        },
      };
    },
    tell,
    close(): void {
      phone?.close("closed");
      phone = null;
    },
  };
}
