import { useState } from 'react';
import { useQuery } from '../../bridge/queries.ts';
import { go } from '../../ui/router.ts';

/** Looks a barcode up and opens its item; `unknown` is the code that no item carries. */
export function useCode(): { readonly unknown: string | null; readonly look: (code: string) => void } {
  const [code, setCode] = useState('');
  const found = useQuery('stock.findBarcode', { barcode: code }, { when: code !== '' });
  if (code !== '' && found.data) {
    setCode('');
    go(`/stock/items/${found.data.itemId}`);
  }
  return { unknown: code !== '' && found.data === null ? code : null, look: setCode };
}
