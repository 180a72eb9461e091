import { useEffect, useState } from 'react';

/** Draws again when a face has loaded: what was measured before it was a guess. */
export function useFace(): void {
  const [, setLoaded] = useState(0);
  useEffect(() => {
    const again = (): void => setLoaded((n) => n + 1);
    document.fonts.addEventListener('loadingdone', again);
    return () => document.fonts.removeEventListener('loadingdone', again);
  }, []);
}
