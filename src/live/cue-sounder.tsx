import {
  createContext,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useRef,
  useState,
} from "react";
import { useOpenSession } from "../api/queries.ts";
import { appPlayer } from "../sound/app-player.ts";
import { usePreview } from "../sound/use-preview.ts";
import { isFirstMoment } from "./start-session.ts";
import { type CueSound, useCueSound } from "./use-cue-sound.ts";

/** The observer's tick: heard at arm's length, not across a room. */
const tick = { chime: "wood", volume: 0.04 } as const;

interface Sounder {
  sound: CueSound;
  /** Says of which session this window is to sound the cues; null for none. */
  take: (sessionId: string | null) => void;
  /** Says that this window shows the cues from now on; returns the way to say that it no longer does. */
  show: () => () => void;
  ticks: boolean;
  setTicks: (on: boolean) => void;
}

const SounderContext = createContext<Sounder | null>(null);

/**
 * Sounds the cues of the session that was opened in this window, also while another page of it is looked
 * at: a teacher who opens a group's page during seatwork silences nothing.
 */
export function CueSounder({ children }: { children: ReactNode }) {
  const open = useOpenSession();
  const [takenId, take] = useState<string | null>(null);
  const [ticks, setTicks] = useState(false);
  const shown = useRef(0);
  const ticksNow = useRef(ticks);
  ticksNow.current = ticks;
  const session =
    open !== null && open.id === takenId && open.status !== "interrupted" ? open : null;

  const isShown = useCallback(() => shown.current > 0, []);
  const onSeen = useCallback(() => {
    if (!ticksNow.current) return;
    void appPlayer().preview(tick.chime, tick.volume);
  }, []);
  const show = useCallback(() => {
    shown.current += 1;
    return () => {
      shown.current -= 1;
    };
  }, []);
  const sound = useCueSound(session, { isShown, onSeen });
  useAnnouncements(session, sound.isSounder, open === null);

  const { isSounder, status, failure, unlock } = sound;
  // biome-ignore lint/correctness/useExhaustiveDependencies: unlock is made anew each time and always does the same
  const sounder = useMemo(
    () => ({ sound: { isSounder, status, failure, unlock }, take, show, ticks, setTicks }),
    [isSounder, status, failure, show, ticks],
  );
  return <SounderContext value={sounder}>{children}</SounderContext>;
}

/** The window's sounding of cues; only below a CueSounder. */
export function useCueSounder(): Sounder {
  const sounder = useContext(SounderContext);
  if (sounder === null) throw new Error("useCueSounder needs a CueSounder above it");
  return sounder;
}

/** Whether this window is to sound the cues and cannot: then they have to be seen. */
export function isMute({ isSounder, status, failure }: CueSound): boolean {
  return isSounder === true && (status !== "ready" || failure !== null);
}

/** While mounted, this window counts as showing each cue. Windows without sound of their own need not say so. */
export function useShowsCues(): void {
  const show = useContext(SounderContext)?.show;
  useEffect(() => show?.(), [show]);
}

/** The chimes for begin and end, by the window that sounds cues, and only for what happens in front of it. */
function useAnnouncements(
  session: { id: string; plan: { cueing: string; volume: number } } | null,
  isSounder: boolean | null,
  isOver: boolean,
): void {
  const announce = usePreview();
  const [rang, setRang] = useState<{ id: string; volume: number } | null>(null);
  const id = session?.id ?? null;
  const volume = session?.plan.cueing === "sound" ? session.plan.volume : null;

  // biome-ignore lint/correctness/useExhaustiveDependencies: the helper that plays is made anew each time
  useEffect(() => {
    if (id === null || volume === null || isSounder !== true) return;
    if (rang?.id === id) return;
    setRang({ id, volume });
    if (isFirstMoment(id)) void announce("begin", volume);
  }, [id, volume, isSounder, rang]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: runs when the session is over, not when helpers change
  useEffect(() => {
    if (!isOver || rang === null) return;
    setRang(null);
    void announce("end", rang.volume);
  }, [isOver, rang]);
}
