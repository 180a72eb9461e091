import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { Head, Stack } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';

/** What all stock was worth at the end of a day. */
export function WorthOn(): ReactNode {
  const t = useText();
  const manner = useManner();
  const [day, setDay] = useState<LocalDay | null>(null);
  const worth = useQuery('stock.valueAt', { day: day ?? '' }, { when: day !== null });
  return (
    <Stack gap={2}>
      <Head title={t('stock.ui.worthOn')} />
      <p className="quiet">{t('stock.ui.worthOnText')}</p>
      <DayField label={t('stock.ui.worthDay')} value={day} onChange={setDay} />
      {day !== null && worth.data ? (
        <p data-worth={day}>
          <b className="num">{money(manner, worth.data.valueMinor)}</b>
        </p>
      ) : null}
      <Refusal refusal={worth.error} />
    </Stack>
  );
}
