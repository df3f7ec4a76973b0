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
import { preview } from "../sound/preview.ts";
import { useAskBeforeClosing } from "./giving/use-ask-before-closing.ts";
import { type CueSound, useCueSound } from "./giving/use-cue-sound.ts";
import { useUnlockOnPress } from "./giving/use-unlock-on-press.ts";
import { isFirstMoment, wasStartedHere } from "./start-session.ts";

/** The observer's tick: heard at arm's length, not across a room. */
const tick = { chime: "wood", volume: 0.04 } as const;

interface Sounder {
  sound: CueSound;
  /** The running or paused session; null when there is none. */
  sessionId: string | null;
  ticks: boolean;
  setTicks: (on: boolean) => void;
}

const SounderContext = createContext<Sounder | null>(null);

/** Who looks at a window. */
type Audience = "adult" | "class";

/**
 * The adult's window in which a session is started or looked at gives its cues rather than another; the
 * class's comes first before none.
 */
const isFirst: Readonly<Record<Audience, (sessionId: string) => boolean>> = {
  adult: (sessionId) =>
    wasStartedHere(sessionId) || window.location.pathname === `/session/${sessionId}`,
  class: () => false,
};

interface CueSounderProps {
  children: ReactNode;
  audience: Audience;
}

/**
 * Gives the cues of whatever session runs, on every page: a teacher who opens a group's page during
 * seatwork, or loads it again, silences nothing. A class's window knows nothing of a plan that cues the
 * teacher alone, and no window of students' own cues.
 */
export function CueSounder({ children, audience }: CueSounderProps) {
  const open = useOpenSession();
  const [ticks, setTicks] = useState(false);
  const ticksNow = useRef(ticks);
  ticksNow.current = ticks;
  const cueing = open?.plan.cueing;
  // Of own cues no window hears: its sign would tell the class who is asked.
  const isOthers = cueing === "own" || (audience === "class" && cueing === "teacher");
  const session = open === null || open.status === "interrupted" || isOthers ? null : open;

  const onSeen = useCallback(() => {
    if (!ticksNow.current) return;
    void preview(tick.chime, tick.volume);
  }, []);
  const wish = useMemo(() => ({ isFirst: isFirst[audience], onSeen }), [audience, onSeen]);
  const sound = useCueSound(session, wish);
  useUnlockOnPress(sound);
  useAskBeforeClosing(session?.status === "running" && sound.giver?.windows === 1);
  useAnnouncements(session, sound.giver?.isHere ?? null, open === null);

  const { giver, status, failure, unlock } = sound;
  const sessionId = session?.id ?? null;
  const sounder = useMemo(
    () => ({ sound: { giver, status, failure, unlock }, sessionId, ticks, setTicks }),
    [giver, status, failure, unlock, sessionId, ticks],
  );
  return <SounderContext value={sounder}>{children}</SounderContext>;
}

/** The window's sounding of cues; only below a CueSounder. */
export function useCueSounder(): Sounder {
  const sounder = useContext(SounderContext);
  if (sounder === null) throw new Error("useCueSounder needs a CueSounder above it");
  return sounder;
}

/** Whether cues that are to sound do not, in whatever window: then they have to be seen. */
export function isMute({ giver, status, failure }: CueSound): boolean {
  if (status === "not-wanted" || giver === null) return false;
  return giver.can !== "sound" || (giver.isHere && failure !== null);
}

/** The chimes for begin and end, by the window that sounds cues, and only for what happens in front of it. */
function useAnnouncements(
  session: { id: string; plan: { cueing: string; volume: number } } | null,
  isSounder: boolean | null,
  isOver: boolean,
): void {
  const [rang, setRang] = useState<{ id: string; volume: number } | null>(null);
  const id = session?.id ?? null;
  const volume = session?.plan.cueing === "sound" ? session.plan.volume : null;

  useEffect(() => {
    // Another window has the task, and will announce the end.
    if (isSounder === false) setRang(null);
    if (id === null || volume === null || isSounder !== true) return;
    if (rang?.id === id) return;
    setRang({ id, volume });
    if (isFirstMoment(id)) void preview("begin", volume);
  }, [id, volume, isSounder, rang]);

  useEffect(() => {
    if (!isOver || rang === null) return;
    setRang(null);
    void preview("end", rang.volume);
  }, [isOver, rang]);
}
