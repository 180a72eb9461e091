import { type RefObject, useLayoutEffect, useState } from 'react';

/** The size of an element in px, kept as it changes. */
export function useBox(element: RefObject<HTMLElement | null>): {
  readonly width: number;
  readonly height: number;
} {
  const [box, setBox] = useState({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const seen = element.current;
    if (!seen) return;
    const measure = (): void =>
      setBox((was) =>
        was.width === seen.clientWidth && was.height === seen.clientHeight
          ? was
          : { width: seen.clientWidth, height: seen.clientHeight },
      );
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(seen);
    return () => watch.disconnect();
  }, [element]);
  return box;
}
