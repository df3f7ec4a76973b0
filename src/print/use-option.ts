import { useAddress } from "../parts/use-address.ts";

/** An option of a print page, kept in its address, so that reloading or a link shows the same sheets. */
export function useOption(name: string, usual: string): [string, (value: string) => void] {
  const [params, change] = useAddress();
  return [params.get(name) ?? usual, (value) => change({ [name]: value })];
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
