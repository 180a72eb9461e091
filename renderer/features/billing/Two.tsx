import type { ReactNode } from 'react';
import css from './billing.module.css';

/** Whose money it is, and a quiet line under it. */
export function Two(props: {
  readonly main: ReactNode;
  readonly under: ReactNode;
  /** True where the whole row is pressed. */
  readonly opens?: boolean;
}): ReactNode {
  return (
    <span className={css['grow']}>
      <span className={props.opens ? 'cut opens' : 'cut'} style={{ display: 'block' }}>
        {props.main}
      </span>
      <span className="t1 dusty cut" style={{ display: 'block' }}>
        {props.under}
      </span>
    </span>
  );
}
