import type { ReactNode } from 'react';
import css from './List.module.css';

/** Rows one below the other with faint rules between them. */
export function List(props: { readonly label: string; readonly children: ReactNode }): ReactNode {
  return (
    <ul className={css['list']} aria-label={props.label}>
      {props.children}
    </ul>
  );
}

/** One row. With `onPress` the whole row is the button; `lit` lights its left edge, say in words what is wanted. */
export function Item(props: {
  readonly lit?: boolean;
  readonly selected?: boolean;
  readonly onPress?: () => void;
  readonly children: ReactNode;
}): ReactNode {
  return (
    <li data-lit={props.lit ?? false} data-selected={props.selected ?? false}>
      {props.onPress ? (
        <button type="button" className={css['item']} aria-pressed={props.selected} onClick={props.onPress}>
          {props.children}
        </button>
      ) : (
        <div className={css['item']}>{props.children}</div>
      )}
    </li>
  );
}
