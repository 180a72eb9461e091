import { useEffect, useRef } from 'react';
import { isTyping } from './shortcuts.ts';

/** A reader sends its signs faster than anybody types. Common practice, no source. */
const FASTEST_HAND_MS = 50;
const FEWEST_SIGNS = 6;

/**
 * What a barcode reader sends like a keyboard while no field has the focus: a run of letters and digits and then
 * Enter. It would press whatever button is in front, and the keys of the screen; here it is told whole instead. In a
 * field it is typed like everything else.
 */
export function useReader(onCode: (code: string) => void): void {
  const now = useRef(onCode);
  now.current = onCode;
  useEffect(() => {
    let run = '';
    let lastMs = 0;
    function press(event: KeyboardEvent): void {
      if (isTyping(event.target) || event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.key === 'Shift') return;
      const follows = event.timeStamp - lastMs < FASTEST_HAND_MS;
      lastMs = event.timeStamp;
      if (event.key === 'Enter' && follows && run.length >= FEWEST_SIGNS) {
        stop(event);
        now.current(run);
        run = '';
      } else if (/^[0-9A-Za-z-]$/.test(event.key)) {
        run = follows ? run + event.key : event.key;
        if (run.length > 1) stop(event);
      } else run = '';
    }
    window.addEventListener('keydown', press, true);
    return () => window.removeEventListener('keydown', press, true);
  }, []);
}

function stop(event: KeyboardEvent): void {
  event.preventDefault();
  event.stopPropagation();
}
