import type { ReactNode } from "react";
import { Checkbox } from "react-aria-components";
import "./check-box.css";

/** One of several that can be chosen together, in a CheckboxGroup. */
export function CheckBox(props: { value: string; isDisabled?: boolean; children: ReactNode }) {
  const { children, ...rest } = props;
  return (
    <Checkbox {...rest} className="check-box">
      <span className="check-box-mark" aria-hidden="true" />
      {children}
    </Checkbox>
  );
}
