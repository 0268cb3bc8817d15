/** An error of the program in one part leaves the others standing, and is told. */

import { Component, type ReactNode } from 'react';

export class ErrorBoundary extends Component<{ children: ReactNode }, { message: string | null }> {
  override state: { message: string | null } = { message: null };

  static getDerivedStateFromError(error: unknown) {
    return { message: error instanceof Error ? error.message : String(error) };
  }

  override render() {
    if (this.state.message === null) return this.props.children;
    return (
      <div className="caution" role="alert">
        <p>This part could not be shown: an error of the program, not of your survey.</p>
        <p className="small quiet">{this.state.message}</p>
        <button
          type="button"
          className="button small"
          onClick={() => this.setState({ message: null })}
        >
          Try again
        </button>
      </div>
    );
  }
}
