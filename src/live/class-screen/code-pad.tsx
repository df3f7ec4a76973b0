import { useEffect, useState } from "react";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { wordProblem } from "../../parts/problem.tsx";
import { useSay } from "../../text/text.tsx";

interface CodePadProps {
  error: unknown;
  onCode: (code: string) => void;
  onStay: () => void;
}

const digits = ["1", "2", "3", "4", "5", "6", "7", "8", "9", "0"] as const;
const fewest = 4;
const most = 8;
/** A pad that nobody presses was opened by a child, or the adult was called away. */
const idleMs = 30_000;

/** Where the adult enters the code, by finger or by key. What was entered is never shown. */
export function CodePad({ error, onCode, onStay }: CodePadProps) {
  const say = useSay();
  const [code, setCode] = useState("");
  const add = (digit: string) => setCode((now) => (now.length < most ? now + digit : now));
  const send = () => {
    if (code.length < fewest) return;
    setCode("");
    onCode(code);
  };

  // biome-ignore lint/correctness/useExhaustiveDependencies: each digit and each answer begins the wait anew
  useEffect(() => {
    const timer = setTimeout(onStay, idleMs);
    return () => clearTimeout(timer);
  }, [code, error, onStay]);

  return (
    <Dialog
      title={say("classScreen.codeTitle")}
      isOpen
      isAlert
      onClose={onStay}
      actions={
        <>
          <Button onPress={onStay}>{say("classScreen.stay")}</Button>
          <Button look="main" isDisabled={code.length < fewest} onPress={send}>
            {say("classScreen.leave")}
          </Button>
        </>
      }
    >
      {/* biome-ignore lint/a11y/noStaticElementInteractions: keys typed anywhere on the pad count; each digit is a button too */}
      <div
        className="code-pad"
        onKeyDown={(event) => {
          if (/^\d$/.test(event.key)) add(event.key);
          if (event.key === "Backspace") setCode((now) => now.slice(0, -1));
        }}
      >
        <p className="code-so-far" role="status">
          <span aria-hidden="true">{"•".repeat(code.length)}</span>
          <span className="only-for-readers">
            {say("classScreen.codeSoFar", { count: code.length })}
          </span>
        </p>
        <div className="code-digits">
          {digits.map((digit, place) => (
            <Button key={digit} autoFocus={place === 0} onPress={() => add(digit)}>
              {digit}
            </Button>
          ))}
          <Button
            aria-label={say("classScreen.digitBack")}
            onPress={() => setCode((now) => now.slice(0, -1))}
          >
            ⌫
          </Button>
        </div>
        <p className="code-problem" role="alert">
          {error === null || error === undefined ? "" : wordProblem(say, error)}
        </p>
      </div>
    </Dialog>
  );
}
