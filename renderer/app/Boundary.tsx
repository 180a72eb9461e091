import { Component, type ReactNode } from 'react';

type Props = {
  readonly resetKey: string;
  readonly fallback: (again: () => void) => ReactNode;
  readonly children: ReactNode;
};
type State = { readonly broken: boolean };

/** Keeps one broken screen from taking the program down. A new path or "again" gives it another try. */
export class Boundary extends Component<Props, State> {
  override readonly state: State = { broken: false };

  static getDerivedStateFromError(): State {
    return { broken: true };
  }

  override componentDidCatch(problem: unknown): void {
    console.error(problem);
  }

  override componentDidUpdate(before: Props): void {
    if (this.state.broken && before.resetKey !== this.props.resetKey) this.setState({ broken: false });
  }

  override render(): ReactNode {
    return this.state.broken
      ? this.props.fallback(() => this.setState({ broken: false }))
      : this.props.children;
  }
}
