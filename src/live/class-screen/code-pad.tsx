import { useCallback, useEffect, useState } from "react";
import { Button } from "../../parts/button.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { wordProblem } from "../../parts/problem.tsx";
import { useAfterRest } from "../../parts/use-after-rest.ts";
import { useSay } from "../../text/text.tsx";

interface CodePadProps {
  error: unknown;
  onCode: (code: string) => void;
  onStay: () => void;
}

const digits = ["1", "2", "3", "4", "5", "6", "7", "8", "9"] as const;
const fewest = 4;
const most = 8;
/** A pad that nobody presses was opened by a child, or the adult was called away. */
const idleMs = 30_000;

/** Where the adult enters the code, by finger or by key. What was entered is never shown. */
export function CodePad({ error, onCode, onStay }: CodePadProps) {
  const say = useSay();
  const [code, setCode] = useState("");
  const add = useCallback(
    (digit: string) => setCode((now) => (now.length < most ? now + digit : now)),
    [],
  );
  const takeBack = useCallback(() => setCode((now) => now.slice(0, -1)), []);
  const send = () => {
    if (code.length < fewest) return;
    setCode("");
    onCode(code);
  };

  useAfterRest([code, error], idleMs, onStay);

  // Wherever the focus is: the pad is all there is just now.
  useEffect(() => {
    const press = ({ key }: KeyboardEvent) => {
      if (/^\d$/.test(key)) add(key);
      if (key === "Backspace") takeBack();
    };
    window.addEventListener("keydown", press);
    return () => window.removeEventListener("keydown", press);
  }, [add, takeBack]);

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
      <div className="code-pad">
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
          <Button aria-label={say("classScreen.digitBack")} onPress={takeBack}>
            ⌫
          </Button>
          <Button onPress={() => add("0")}>0</Button>
        </div>
        <p className="code-problem" role="alert">
          {error === null || error === undefined ? "" : wordProblem(say, error)}
        </p>
      </div>
    </Dialog>
  );
}
