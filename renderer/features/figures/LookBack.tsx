import { type ReactNode, useState } from 'react';
import { addLocalDays } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import { useText, useToday } from '../../bridge/texts.tsx';
import { Words } from '../../ui/Choice.tsx';

const BACKS = ['90', '365', '1095'] as const;
type Back = (typeof BACKS)[number];

/** How far a page looks back: the days, and the words that choose them. */
export function useLookBack(): {
  readonly range: { readonly fromDay: LocalDay; readonly toDay: LocalDay };
  readonly words: ReactNode;
} {
  const t = useText();
  const today = useToday();
  const [back, setBack] = useState<Back>('365');
  const words = (
    <Words
      label={t('figures.back')}
      value={back}
      onChange={setBack}
      options={BACKS.map((value) => ({ value, label: t(`figures.back.${value}`) }))}
    />
  );
  return { range: { fromDay: addLocalDays(today, -Number(back)), toDay: today }, words };
}
