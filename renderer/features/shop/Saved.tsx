import type { ReactNode } from 'react';
import { useText } from '../../bridge/texts.tsx';

/** That what stands in the form is kept. */
export function Saved(props: { readonly when: boolean }): ReactNode {
  const t = useText();
  if (!props.when) return null;
  return (
    <span className="t1 quiet" role="status">
      {t('shop.saved')}
    </span>
  );
}
