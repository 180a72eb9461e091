import { type ReactNode, useEffect, useRef, useState } from 'react';
import css from './card.module.css';

const HOLD_MS = 400;

/** Done by holding for a moment, so that a glove that brushes it ends nothing. Space or Enter held count too. */
export function HoldButton(props: { readonly onHeld: () => void; readonly children: ReactNode }): ReactNode {
  const [held, setHeld] = useState(false);
  const timer = useRef<ReturnType<typeof setTimeout> | null>(null);
  useEffect(
    () => () => {
      if (timer.current !== null) clearTimeout(timer.current);
    },
    [],
  );
  function stop(): void {
    if (timer.current !== null) clearTimeout(timer.current);
    timer.current = null;
  }
  function begin(): void {
    if (timer.current !== null) return;
    setHeld(true);
    timer.current = setTimeout(() => {
      stop();
      setHeld(false);
      props.onHeld();
    }, HOLD_MS);
  }
  function leave(): void {
    stop();
    setHeld(false);
  }
  return (
    <button
      type="button"
      className={css['hold']}
      data-held={held}
      onPointerDown={begin}
      onPointerUp={leave}
      onPointerLeave={leave}
      onKeyDown={(event) => {
        if (event.key === ' ' || event.key === 'Enter') {
          event.preventDefault();
          begin();
        }
      }}
      onKeyUp={leave}
      onBlur={leave}
      onContextMenu={(event) => event.preventDefault()}
    >
      {props.children}
    </button>
  );
}
