import { type RefObject, useLayoutEffect, useRef } from 'react';

const INSIDE = 'a[href], button, input, select, textarea, [tabindex]:not([tabindex="-1"])';

/**
 * For a box that scrolls on its own: while it does and holds nothing that the keyboard reaches, it is reached itself, so
 * that arrows can move it.
 */
export function useReach<E extends HTMLElement>(): RefObject<E | null> {
  const box = useRef<E>(null);
  useLayoutEffect(() => {
    const { current } = box;
    if (!current) return;
    const look = (): void => {
      // Its height is asked for last: the whole page would be laid out for it, at each change of what it holds.
      const scrolls = (): boolean => current.scrollHeight > current.clientHeight + 1;
      if (current.querySelector(INSIDE) === null && scrolls()) current.tabIndex = 0;
      else current.removeAttribute('tabindex');
    };
    const sizes = new ResizeObserver(look);
    const contents = new MutationObserver(look);
    sizes.observe(current);
    contents.observe(current, { childList: true, subtree: true });
    return () => {
      sizes.disconnect();
      contents.disconnect();
    };
  }, []);
  return box;
}
