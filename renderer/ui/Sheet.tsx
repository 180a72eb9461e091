import type { ReactNode } from 'react';
import css from './Sheet.module.css';

/** Paper: black on white in both themes; when the window is printed, only this is. */
export function Sheet(props: { readonly label: string; readonly children: ReactNode }): ReactNode {
  return (
    <article className={css['sheet']} aria-label={props.label}>
      {props.children}
    </article>
  );
}
