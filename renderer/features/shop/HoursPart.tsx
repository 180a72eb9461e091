import type { ReactNode } from 'react';
import type { WeeklyHours } from '#core/shared/examples.ts';
import type { BaysSetupView } from '#core/shared/views/baysSetup.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useText } from '../../bridge/texts.tsx';
import { Refusal } from '../../ui/States.tsx';
import { useTyped } from './useTyped.ts';
import { WeekTable } from './WeekTable.tsx';
import { openingOf, weekOf } from './week.ts';

/** The week of the shop and of its desk, saved as it is typed. */
export function HoursPart(props: { readonly setup: BaysSetupView }): ReactNode {
  const t = useText();
  const set = useCommand('bays.setOpeningHours');
  const off = useMay('owner') ? undefined : t('shop.onlyOwner');
  const [hours, setHours] = useTyped(props.setup.hours, set.busy);
  function put([shop = [], desk = []]: readonly (readonly WeeklyHours[])[]): void {
    const next = openingOf(shop, desk);
    setHours(next);
    void set.run({ hours: next });
  }
  return (
    <>
      <p className="quiet">{t('shop.hours.text')}</p>
      <WeekTable
        off={off}
        lines={[
          { id: 'shop', label: t('shop.hours.shop'), week: weekOf(hours, 'shop') },
          { id: 'desk', label: t('shop.hours.desk'), week: weekOf(hours, 'desk') },
        ]}
        onChange={put}
      />
      <Refusal refusal={set.refusal} />
    </>
  );
}
