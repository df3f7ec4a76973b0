import { useState } from "react";

/**
 * What stands in a field, kept exactly as it was typed for as long as it means `value`. When the value
 * comes from elsewhere, such as the nearest possible plan, the field shows that.
 *
 * A text that cannot be read stands for NaN.
 */
export function useTyped(value: number, write: (value: number) => string) {
  const [typed, setTyped] = useState({ text: write(value), value });
  const isFromElsewhere = !Object.is(typed.value, value);
  const text = isFromElsewhere ? write(value) : typed.text;
  if (isFromElsewhere) setTyped({ text, value });
  return {
    text,
    keep: (next: string, meaning: number) => setTyped({ text: next, value: meaning }),
  };
}
