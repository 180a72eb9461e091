import type { ReactNode } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row } from '../../ui/Layout.tsx';
import { BayFields } from './BayFields.tsx';
import type { DraftBay } from './draft.ts';
import type { StepProps } from './SetUpSteps.tsx';
import { twice } from './setUpFaults.ts';
import css from './shop.module.css';
import { WeekTable } from './WeekTable.tsx';

const NEXT_BAY = { name: '', kind: 'correction', capacity: 1, setupMin: 0 } as const;

/** The places where cars stand: bays for one car each, the yard for more. */
export function BaysStep({ draft, change }: StepProps): ReactNode {
  const t = useText();
  const put = (at: number, part: Partial<DraftBay>): void =>
    change({ bays: draft.bays.map((bay, i) => (i === at ? { ...bay, ...part } : bay)) });
  const doubled = twice(draft.bays.map((bay) => bay.name));
  return (
    <div className={css['wide']}>
      {draft.bays.map((bay, i) => (
        <BayRow
          // biome-ignore lint/suspicious/noArrayIndexKey: lines have no identity of their own until they are saved
          key={i}
          bay={bay}
          isTwice={doubled.includes(bay.name.trim())}
          onChange={(part) => put(i, part)}
          onOut={() => change({ bays: draft.bays.filter((_, at) => at !== i) })}
        />
      ))}
      <Row>
        <LinkButton onPress={() => change({ bays: [...draft.bays, NEXT_BAY] })}>
          {t('shop.bay.add')}
        </LinkButton>
      </Row>
      <p className="t1 dusty">
        {t('shop.bay.one')} {t('shop.bay.setupNote')}
      </p>
    </div>
  );
}

function BayRow(props: {
  readonly bay: DraftBay;
  readonly isTwice: boolean;
  readonly onChange: (part: Partial<DraftBay>) => void;
  readonly onOut: () => void;
}): ReactNode {
  const t = useText();
  const { bay, onChange } = props;
  return (
    <div className={css['bayRow']}>
      <TextField
        label={t('shop.bay.name')}
        value={bay.name}
        maxLength={60}
        error={props.isTwice ? t('shop.setUp.isTwice') : undefined}
        onChange={(name) => onChange({ name })}
      />
      <BayFields
        bay={bay}
        onChange={(part) => onChange(part.kind && part.kind !== 'yard' ? { ...part, capacity: 1 } : part)}
      />
      <LinkButton quiet label={t('shop.bay.outOf', { name: bay.name })} onPress={props.onOut}>
        {t('shop.bay.out')}
      </LinkButton>
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
