import type { ReactNode } from 'react';
import type { Say } from '../../bridge/texts.tsx';

/** The sentence and that nothing waits for it. */
export function VinNote(props: { readonly sentence: string; readonly t: Say }): ReactNode {
  return (
    <>
      <b>{props.sentence}</b> <span className="quiet">{props.t('vin.kept')}</span>
    </>
  );
}
