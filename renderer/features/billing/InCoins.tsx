import type { ReactNode } from 'react';
import { money } from '#core/shared/text/format.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import type { Way } from './PayWay.tsx';

/** Says that no coins make an amount, and what becomes of the difference; nothing where they do. */
export function InCoins(props: {
  readonly way: Way;
  readonly exactMinor: number;
  readonly cashMinor: number;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { way, exactMinor, cashMinor } = props;
  if (way !== 'cash' || exactMinor === cashMinor) return null;
  const values = { exact: money(manner, exactMinor), cash: money(manner, cashMinor) };
  return <p className="t1 quiet">{t('money.inCoins', values)}</p>;
}
