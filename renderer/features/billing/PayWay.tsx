import type { ReactNode } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { Segmented } from '../../ui/Choice.tsx';

const WAYS = ['cash', 'card', 'transfer'] as const;
export type Way = (typeof WAYS)[number];

/** How money comes in or goes back. */
export function PayWay(props: { readonly value: Way; readonly onChange: (way: Way) => void }): ReactNode {
  const t = useText();
  return (
    <Segmented
      label={t('invoice.payWay')}
      value={props.value}
      onChange={props.onChange}
      options={WAYS.map((value) => ({ value, label: t(`invoice.way.${value}`) }))}
    />
  );
}
