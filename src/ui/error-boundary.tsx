import { Component, type ComponentChildren } from "preact";

type Props = {
  children: ComponentChildren;
  /** What to show instead, from whatever was thrown. */
  instead: (thrown: unknown) => ComponentChildren;
};

/**
 * Shows a sentence instead of a blank page when something under it throws while rendering.
 * Nothing that was kept is touched; a child with another `key` starts afresh.
 */
export class ErrorBoundary extends Component<Props, { failed: boolean; thrown: unknown }> {
  override state = { failed: false, thrown: undefined as unknown };

  static override getDerivedStateFromError(thrown: unknown) {
    return { failed: true, thrown };
  }

  override render() {
    return this.state.failed ? this.props.instead(this.state.thrown) : this.props.children;
  }
}
