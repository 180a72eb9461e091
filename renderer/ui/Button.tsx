import type { MouseEvent, ReactNode, Ref } from 'react';
import css from './Button.module.css';

type ButtonProps = {
  /** go: the one next thing of the place; final: can't be taken back; plain: the rest. */
  readonly kind?: 'go' | 'final' | 'plain';
  readonly onPress: () => void;
  /** Why not now. Its presence switches the button off and is shown on hover and to screen readers. */
  readonly why?: string | undefined;
  readonly busy?: boolean;
  readonly keys?: string;
  readonly autoFocus?: boolean;
  readonly label?: string;
  readonly ref?: Ref<HTMLButtonElement>;
  readonly children: ReactNode;
};

/** A button. Switched off it stays reachable, dashed, and says why. */
export function Button(props: ButtonProps): ReactNode {
  const off = props.why !== undefined || props.busy === true;
  // What is sent is sent once: the second half of a double click may meet the next form in the same place.
  const press = (event: MouseEvent): void =>
    props.busy !== undefined && event.detail > 1 ? undefined : props.onPress();
  return (
    <button
      ref={props.ref}
      type="button"
      className={css['button']}
      data-kind={props.kind ?? 'plain'}
      data-busy={props.busy ?? false}
      aria-disabled={off}
      aria-busy={props.busy}
      aria-label={props.label}
      title={props.why}
      // biome-ignore lint/a11y/noAutofocus: only confirms ask for it, so that Enter keeps what is safe
      autoFocus={props.autoFocus}
      onClick={off ? undefined : press}
    >
      {props.children}
      {props.keys ? <kbd className="kbd">{props.keys}</kbd> : null}
    </button>
  );
}

type LinkButtonProps = {
  readonly onPress: () => void;
  readonly why?: string | undefined;
  /** Smaller and quieter, for the head of a list. */
  readonly quiet?: boolean;
  readonly label?: string;
  readonly busy?: boolean;
  readonly children: ReactNode;
};

/** An action as an underlined word: everything that is not the one next thing. */
export function LinkButton(props: LinkButtonProps): ReactNode {
  const off = props.why !== undefined || props.busy === true;
  return (
    <button
      type="button"
      className={css['link']}
      data-quiet={props.quiet ?? false}
      aria-disabled={off}
      aria-busy={props.busy}
      aria-label={props.label}
      title={props.why}
      onClick={off ? undefined : props.onPress}
    >
      {props.children}
    </button>
  );
}

/** A link to another place of the program, underlined like an action. */
export function LinkTo(props: {
  readonly to: string;
  readonly quiet?: boolean;
  readonly label?: string;
  readonly children: ReactNode;
}): ReactNode {
  return (
    <a
      className={css['link']}
      data-quiet={props.quiet ?? false}
      href={`#${props.to}`}
      aria-label={props.label}
    >
      {props.children}
    </a>
  );
}
