import { useEffect, useState } from 'react';
import { flushSync } from 'react-dom';

/** True while the page is laid out for paper; then it is light in either theme, for ink is dear. */
export function usePrinting(): boolean {
  const [printing, setPrinting] = useState(false);
  useEffect(() => {
    const root = document.documentElement;
    let theme: string | undefined;
    const before = (): void => {
      theme = root.dataset['theme'];
      root.dataset['theme'] = 'light';
      flushSync(() => setPrinting(true));
    };
    const after = (): void => {
      if (theme === undefined) delete root.dataset['theme'];
      else root.dataset['theme'] = theme;
      setPrinting(false);
    };
    window.addEventListener('beforeprint', before);
    window.addEventListener('afterprint', after);
    return () => {
      window.removeEventListener('beforeprint', before);
      window.removeEventListener('afterprint', after);
    };
  }, []);
  return printing;
}
