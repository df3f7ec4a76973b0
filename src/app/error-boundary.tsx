import { Component, type ReactNode } from "react";
import { Button } from "../parts/button.tsx";
import type { Say } from "../text/text.tsx";

interface Props {
  say: Say;
  children: ReactNode;
}

interface State {
  error: Error | null;
}

/**
 * Catches what a screen throws. The session runs on the desktop side, so a broken page costs nothing but
 * its own view: opening it again catches up from the store.
 */
export class ErrorBoundary extends Component<Props, State> {
  override state: State = { error: null };

  static getDerivedStateFromError(error: unknown): State {
    return { error: error instanceof Error ? error : new Error(String(error)) };
  }

  override render() {
    const { error } = this.state;
    const { say, children } = this.props;
    if (error === null) return children;
    return (
      <div className="crash" role="alert">
        <h1>{say("crash.title")}</h1>
        <p>{say("crash.body")}</p>
        <Button look="main" onPress={() => this.setState({ error: null })}>
          {say("crash.again")}
        </Button>
        <details>
          <summary>{say("crash.detail")}</summary>
          <pre>{error.message}</pre>
        </details>
      </div>
    );
  }
}
