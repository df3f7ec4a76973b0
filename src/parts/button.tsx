import { Button as AriaButton, type ButtonProps as AriaButtonProps } from "react-aria-components";
import "./button.css";

interface ButtonProps extends AriaButtonProps {
  /**
   * Four ranks: `main` is the one thing to do on a screen, `plain` is ordinary, `quiet` is for what is
   * rarely wanted, `danger` is for what cannot be undone.
   */
  look?: "main" | "plain" | "quiet" | "danger";
  size?: "normal" | "large";
}

/** A press that does something. */
export function Button({ look = "plain", size = "normal", className, ...rest }: ButtonProps) {
  const extra = typeof className === "string" ? className : "";
  return <AriaButton {...rest} className={`button button-${look} button-${size} ${extra}`} />;
}
