import type { ReactNode } from 'react';
import { BAY_KINDS } from '#core/shared/vocabulary.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import type { DraftBay } from './draft.ts';
import type { StepProps } from './SetUpSteps.tsx';
import { twice } from './setUpFaults.ts';
import css from './shop.module.css';
import { WeekTable } from './WeekTable.tsx';

/** The places where cars stand: bays for one car each, the yard for more. */
export function BaysStep({ draft, change }: StepProps): ReactNode {
  const t = useText();
  const put = (at: number, part: Partial<DraftBay>): void =>
    change({ bays: draft.bays.map((bay, i) => (i === at ? { ...bay, ...part } : bay)) });
  const doubled = twice(draft.bays.map((bay) => bay.name));
  const next = { name: '', kind: 'correction', capacity: 1, setupMin: 0 } as const;
  return (
    <div className={css['wide']}>
      {draft.bays.map((bay, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines have no identity of their own until they are saved
        <div key={i} className={css['bayRow']}>
          <TextField
            label={t('shop.bay.name')}
            value={bay.name}
            maxLength={60}
            error={doubled.includes(bay.name.trim()) ? t('shop.setUp.isTwice') : undefined}
            onChange={(name) => put(i, { name })}
          />
          <Select
            label={t('shop.bay.kind')}
            options={BAY_KINDS.map((value) => ({ value, label: t(`word.bay.${value}`) }))}
            value={bay.kind}
            onChange={(kind) => put(i, { kind, capacity: kind === 'yard' ? bay.capacity : 1 })}
          />
          {bay.kind === 'yard' ? (
            <NumberField
              label={t('shop.bay.cars')}
              min={1}
              max={50}
              value={bay.capacity}
              onChange={(cars) => put(i, { capacity: cars ?? 1 })}
            />
          ) : (
            <span />
          )}
          <NumberField
            label={t('shop.bay.setup')}
            unit="min"
            min={0}
            max={240}
            value={bay.setupMin}
            onChange={(setupMin) => put(i, { setupMin: setupMin ?? 0 })}
          />
          <LinkButton
            quiet
            label={t('shop.bay.outOf', { name: bay.name })}
            onPress={() => change({ bays: draft.bays.filter((_, at) => at !== i) })}
          >
            {t('shop.bay.out')}
          </LinkButton>
        </div>
      ))}
      <Row>
        <LinkButton onPress={() => change({ bays: [...draft.bays, next] })}>{t('shop.bay.add')}</LinkButton>
      </Row>
      <p className="t1 dusty">
        {t('shop.bay.one')} {t('shop.bay.setupNote')}
      </p>
    </div>
  );
}

/** The week of the shop and of its desk. */
export function HoursStep({ draft, change }: StepProps): ReactNode {
  const t = useText();
  return (
    <div className={css['wide']}>
      <p className="quiet">{t('shop.hours.text')}</p>
      <WeekTable
        lines={[
          { id: 'shop', label: t('shop.hours.shop'), week: draft.shopWeek },
          { id: 'desk', label: t('shop.hours.desk'), week: draft.deskWeek },
        ]}
        unread={draft.unread}
        onUnread={(unread) => change({ unread })}
        onChange={([shopWeek = [], deskWeek = []]) => change({ shopWeek, deskWeek })}
      />
    </div>
  );
}
