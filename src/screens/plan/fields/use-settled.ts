import { useEffect, useState } from "react";

/** The value once it has stood still for so long: half-typed numbers raise no alarm and cost no computation. */
export function useSettled<Value>(value: Value, stillMs: number): Value {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), stillMs);
    return () => clearTimeout(timer);
  }, [value, stillMs]);
  return settled;
}
