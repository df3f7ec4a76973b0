import { useSearchParams } from "react-router";

/** An option of a print page, kept in its address, so that reloading or a link shows the same sheets. */
export function useOption(name: string, usual: string): [string, (value: string) => void] {
  const [params, setParams] = useSearchParams();
  const set = (value: string) => {
    // The address itself, not the one last drawn: two quick choices would lose the first.
    const now = new URLSearchParams(window.location.search);
    now.set(name, value);
    setParams(now, { replace: true });
  };
  return [params.get(name) ?? usual, set];
}

/** An option with a few values; anything else in the address counts as the usual one. */
export function useChoice<Value extends string>(
  name: string,
  values: readonly Value[],
  usual: Value,
): [Value, (value: Value) => void] {
  const [text, set] = useOption(name, usual);
  return [values.find((value) => value === text) ?? usual, set];
}
