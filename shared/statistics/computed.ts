/** Says that a number does not exist for these data, and why, as a code that a screen turns into words. */
export interface NotComputable<Reason extends string = string> {
  readonly kind: "not-computable";
  readonly reason: Reason;
}

/** A number, with whatever belongs to it. */
export interface Computed<Value = number> {
  readonly kind: "computed";
  readonly value: Value;
}

/** Example: notComputable("empty-phase").kind // "not-computable" */
export function notComputable<Reason extends string>(reason: Reason): NotComputable<Reason> {
  return { kind: "not-computable", reason };
}

/** Example: computed(0.7).value // 0.7 */
export function computed<Value>(value: Value): Computed<Value> {
  return { kind: "computed", value };
}
