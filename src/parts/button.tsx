import { Button as AriaButton, type ButtonProps as AriaButtonProps } from "react-aria-components";
import "./button.css";

interface ButtonProps extends AriaButtonProps {
  /** `main` is the one thing to do on a screen; `quiet` is for what is rarely wanted. */
  look?: "main" | "plain" | "quiet";
  size?: "normal" | "large";
}

/** A press that does something. */
export function Button({ look = "plain", size = "normal", className, ...rest }: ButtonProps) {
  const extra = typeof className === "string" ? className : "";
  return <AriaButton {...rest} className={`button button-${look} button-${size} ${extra}`} />;
}
