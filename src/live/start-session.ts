import { useNavigate } from "react-router";
import type { Plan } from "../../shared/api/plans.ts";
import type { Observing } from "../../shared/api/sessions.ts";
import type { SessionKind } from "../../shared/session/event.ts";
import { planForKind } from "../../shared/session/kind-plan.ts";
import type { Api } from "../api/api.ts";
import { useCare, useOpenSession, useTell } from "../api/queries.ts";
import { appPlayer } from "../sound/app-player.ts";

/** The session that was started by a press in this window and whose begin has not been announced yet. */
let startedHere: string | null = null;

/** Whether this window has just started that session; true once. */
export function isFirstMoment(sessionId: string): boolean {
  if (startedHere !== sessionId) return false;
  startedHere = null;
  return true;
}

/** The session that was started in this window last, and whether one is being started right now. */
let newestHere: string | null = null;
let isStarting = false;

/** Whether a session that has just been found was started in this window, perhaps this very moment. */
export const wasStartedHere = (sessionId: string): boolean =>
  isStarting || newestHere === sessionId;

/** What is said and written around the start of a session. */
export interface Around {
  /** Has to be written before the session starts. */
  readonly first?: ((api: Api) => Promise<unknown>) | undefined;
  /** Is written once the session has started, and not if it could not. */
  readonly after?: ((api: Api) => Promise<unknown>) | undefined;
  /** Who is absent from the first moment; nobody when left out. */
  readonly absentIds?: readonly string[] | undefined;
  /** Under own cues: whose desk an adult touches, by a key printed for this seed. */
  readonly own?: { readonly byTouchIds: readonly string[]; readonly seed: string } | undefined;
}

interface Start extends Around {
  plan: Pick<Plan, "id" | "groupId" | "settings">;
  kind: SessionKind;
  /** The seed of a sheet that was printed before; a fresh one when left out. */
  seed?: string | undefined;
  /** Of a baseline or probe: whom to watch and how often. */
  observing?: Observing;
}

/** Starts a session and opens its page; call `start` within a press, so that the page may sound. */
export function useStartSession() {
  const navigate = useNavigate();
  const open = useOpenSession();
  const care = useCare();
  const { mutate, error, isPending } = useTell(
    async (api, { plan, kind, seed, observing, first, after, absentIds, own }: Start) => {
      await first?.(api);
      isStarting = true;
      const starting = api.sessions.start({
        groupId: plan.groupId,
        planId: plan.id,
        kind,
        ...(seed === undefined ? {} : { seed }),
        ...(own === undefined ? {} : { seed: own.seed, byTouchIds: [...own.byTouchIds] }),
        ...(observing === undefined ? {} : { observing }),
        ...(absentIds === undefined ? {} : { absentIds: [...absentIds] }),
      });
      const session = await starting.finally(() => {
        isStarting = false;
      });
      startedHere = session.id;
      newestHere = session.id;
      // The session runs whether or not this is kept.
      await after?.(api).catch(() => undefined);
      return session;
    },
  );
  return {
    error,
    /** No session is open or starting, and what it records could be saved. */
    mayStart: open === null && !isPending && (care?.readingOnly ?? null) === null,
    start: (wanted: Start) => {
      const isHeard = planForKind(wanted.plan.settings, wanted.kind).cueing === "sound";
      if (isHeard) void appPlayer().unlock();
      mutate(wanted, { onSuccess: ({ id }) => navigate(`/session/${id}`) });
    },
  };
}
