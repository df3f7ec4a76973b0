import { useState } from "react";
import { Button } from "../parts/button.tsx";
import { TextField } from "../parts/field.tsx";
import { freshSeed } from "../parts/fresh-seed.ts";
import { useSay } from "../text/text.tsx";
import { useOption } from "./use-option.ts";

/** The seed in the address, or a fresh one that stays until another is chosen. */
export function useSeed(): [string, (seed: string) => void] {
  const [drawn] = useState(freshSeed);
  const [seed, setSeed] = useOption("seed", drawn);
  return [seed.trim().slice(0, 80) || drawn, setSeed];
}

export function SeedField({ seed, onChange }: { seed: string; onChange: (seed: string) => void }) {
  const say = useSay();
  const [text, setText] = useState(seed);
  const change = (next: string) => {
    setText(next);
    if (next.trim() !== "") onChange(next.trim());
  };
  return (
    <div className="print-seed">
      <TextField
        label={say("seed.seed")}
        value={text}
        onChange={change}
        maxLength={80}
        problem={text.trim() === "" ? say("refused.seed-bad") : undefined}
      />
      <Button onPress={() => change(freshSeed())}>{say("seed.another")}</Button>
    </div>
  );
}
