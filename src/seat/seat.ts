import { typedCode } from "../../shared/seats/code.ts";
import type { ToSeat } from "../../shared/seats/message.ts";
import { showCodeFace, showSentence } from "./code-face.ts";
import { pocketFace } from "./pocket-face.ts";
import { type SeatSocket, seatLine } from "./seat-line.ts";
import { seatPage } from "./seat-page.ts";
import { shownCue } from "./shown-cue.ts";
import { showTryFace } from "./try-face.ts";
import { waitingMarks } from "./waiting-marks.ts";
import { say, speak } from "./words.ts";

/** The tab keeps its code over a reload, and forgets it when it is closed. */
const codeKey = "pebblechime-seat";
/** Closed seats, or too many wrong codes: so long is waited before the next try, in ms. */
const closedPauseMs = 10_000;
const wrongPauseMs = 60_000;

function keptCode(): string | null {
  try {
    return typedCode(sessionStorage.getItem(codeKey) || "");
  } catch {
    return null;
  }
}

function keepCode(code: string | null): void {
  try {
    if (code === null) sessionStorage.removeItem(codeKey);
    else sessionStorage.setItem(codeKey, code);
  } catch {
    // Without storage the code is asked for again after a reload.
  }
}

/** The code behind the # of a slip's address, which no browser sends to anybody; it leaves the address bar. */
function codeInAddress(): string | null {
  const code = typedCode(location.hash.slice(1));
  if (location.hash !== "") history.replaceState(null, "", location.pathname);
  return code;
}

function askCode(trouble = ""): void {
  keepCode(null);
  showCodeFace(trouble, (typed) => {
    const code = typedCode(typed);
    if (code === null) askCode(say("seatPage.wrongCode"));
    else join(code, true);
  });
}

/**
 * Joins with a code and stays joined.
 *
 * @param isNew whether this device has still to be tried out
 */
function join(code: string, isNew: boolean): void {
  keepCode(code);
  showSentence(say("seatPage.finding"));
  const waiting = waitingMarks(code);
  let seat: ReturnType<typeof seatPage> | null = null;
  let pocket: ReturnType<typeof pocketFace> | null = null;
  let hasTried = !isNew;
  /** What came while the device was being tried out. */
  let early: ToSeat[] = [];

  function stop(): void {
    if (seat !== null) seat.stop();
    seat = null;
    pocket = null;
    line.stop();
  }

  function laterAgain(text: string, ms: number): void {
    stop();
    const timer = window.setTimeout(() => join(code, !hasTried), ms);
    showSentence(text, {
      label: say("seatPage.join"),
      press: () => {
        clearTimeout(timer);
        join(code, !hasTried);
      },
    });
  }

  function closed(why: Extract<ToSeat, { readonly kind: "closed" }>["why"]): void {
    if (why === "closed") laterAgain(say("seatPage.closed"), closedPauseMs);
    else if (why === "wait") laterAgain(say("seatPage.wait"), wrongPauseMs);
    else if (why === "paused") laterAgain(say("seatPage.paused"), wrongPauseMs);
    else {
      stop();
      if (why === "code") askCode(say("seatPage.wrongCode"));
      else {
        showSentence(say("seatPage.elsewhere"), {
          label: say("seatPage.useHere"),
          press: () => join(code, !hasTried),
        });
      }
    }
  }

  function seated(told: Extract<ToSeat, { readonly kind: "seat" }>): void {
    speak(told.language);
    document.title = `${say("seatPage.seat", { number: told.number })}`;
    if (seat !== null) seat.again(told);
    else if (hasTried) begin(told);
    else {
      showTryFace(told.number, () => {
        hasTried = true;
        begin(told);
      });
    }
  }

  function begin(told: Extract<ToSeat, { readonly kind: "seat" }>): void {
    seat = seatPage(line, waiting, shownCue(code), told);
    const before = early;
    early = [];
    for (const message of before) seat.heard(message);
  }

  function heard(message: ToSeat): void {
    if (message.kind === "closed") closed(message.why);
    else if (message.kind === "freed") {
      stop();
      askCode(say("seatPage.freed"));
    } else if (message.kind === "seat") seated(message);
    else if (message.kind === "places" && pocket === null) {
      speak(message.language);
      document.title = say("pocketPage.title");
      pocket = pocketFace(line);
      pocket.heard(message);
    } else if (pocket !== null) pocket.heard(message);
    else if (seat !== null) seat.heard(message);
    else if (message.kind === "state")
      early = early.filter(({ kind }) => kind !== "state").concat([message]);
    else if (message.kind === "kept") early = early.concat([message]);
  }

  const line: SeatSocket = seatLine(
    () => line.send({ kind: "hello", code }),
    heard,
    () => {
      if (seat !== null) seat.lost();
      if (pocket !== null) pocket.lost();
    },
  );
  // Awake and in front also while it is being tried out, and on the adult's phone.
  const beat = window.setInterval(() => {
    if (seat !== null || document.hidden) return;
    line.check();
    line.send({ kind: "alive" });
    // Answered, so that a line that is lost is noticed here too.
    line.send({ kind: "clock", t: performance.now() });
  }, 5_000);
  const stopLine = line.stop;
  line.stop = () => {
    clearInterval(beat);
    stopLine();
  };
}

const given = codeInAddress();
const there = keptCode();
if (given !== null) join(given, true);
else if (there !== null) join(there, false);
else askCode();
addEventListener("hashchange", () => location.reload());
