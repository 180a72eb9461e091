import type { ReactNode } from 'react';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { Column, Place } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { BayItems } from './BayItems.tsx';
import { PadList } from './PadList.tsx';

/** Stock for whoever works in the bays: pads and towels to wash, bottles to open and read. Orders are the desk's. */
export function PadsPlace(): ReactNode {
  const t = useText();
  const pads = useQuery('stock.showPads', {});
  return (
    <Place label={t('stock.ui.title')} columns="one">
      <Column>
        <Refusal refusal={pads.error} />
        {pads.loading ? <Waiting /> : null}
        {pads.data?.length === 0 ? (
          <Empty title={t('stock.ui.noPads')} text={t('stock.ui.noPadsText')} />
        ) : null}
        <PadList pads={pads.data ?? []} />
        <BayItems />
      </Column>
    </Place>
  );
}
