import { useEffect, useState } from 'react';
import { useDocument } from '../../bridge/documents.ts';

/** A stored picture as an address for the page; null until it is read. Let go of when nobody shows it any more. */
export function usePicture(pictureId: string): string | null {
  const { make } = useDocument('paint.picture');
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    let made: string | null = null;
    let gone = false;
    void make({ pictureId }).then((file) => {
      if (!file || gone) return;
      made = URL.createObjectURL(new Blob([Uint8Array.from(file.bytes)], { type: file.mime }));
      setUrl(made);
    });
    return () => {
      gone = true;
      if (made) URL.revokeObjectURL(made);
    };
  }, [pictureId, make]);
  return url;
}
