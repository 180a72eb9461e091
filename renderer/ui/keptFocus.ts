import { useEffect } from 'react';
import { isTyping } from './shortcuts.ts';

type Focused = HTMLElement | SVGElement;

/** How many elements that had the keyboard are remembered: a form of some fields over what opened it. */
const MOST = 40;
/** What is drawn anew after a save may take the focus of its own accord first. */
const SETTLED_MS = 50;

/**
 * A form or a question that goes away takes the focus with it. It goes back to what had it before and is still there,
 * the latest first, but to no field: letters would be typed into it. Another screen begins anew.
 */
export function useKeptFocus(path: string): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: what had the focus on one screen is none of the next
  useEffect(() => {
    const had: Focused[] = [];
    let timer = 0;
    const note = ({ target }: FocusEvent): void => {
      if (!(target instanceof HTMLElement || target instanceof SVGElement)) return;
      had.push(target);
      if (had.length > MOST) had.shift();
    };
    const isLost = (): boolean =>
      document.activeElement === document.body && had.at(-1)?.isConnected === false;
    const back = (): void => {
      if (!isLost()) return;
      had.findLast((el) => el.isConnected && !isTyping(el))?.focus({ preventScroll: true });
    };
    const watch = new MutationObserver(() => {
      if (had.length === 0 || !isLost()) return;
      window.clearTimeout(timer);
      timer = window.setTimeout(back, SETTLED_MS);
    });
    document.addEventListener('focusin', note);
    watch.observe(document.body, { childList: true, subtree: true });
    return () => {
      document.removeEventListener('focusin', note);
      watch.disconnect();
      window.clearTimeout(timer);
    };
  }, [path]);
}
