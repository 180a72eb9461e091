import { type ReactNode, useState } from 'react';
import { money } from '#core/shared/text/format.ts';
import { date } from '#core/shared/text/when.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { RateRow, ShopPage } from '#core/shared/views/shop.ts';
import { SKILLS, type Skill, STAGE_KINDS, type StageKind } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { type Say, useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { Row } from '../../ui/Layout.tsx';
import { MoneyField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import { Table } from '../../ui/Table.tsx';
import css from './shop.module.css';

function subjectOf(row: RateRow, t: Say): string {
  switch (row.applies) {
    case 'all':
      return t('shop.forAll');
    case 'skill':
      return t(`word.skill.${row.subject as Skill}`);
    case 'stage':
      return t(`word.stage.${row.subject as StageKind}`);
  }
}

type Subject = 'all' | `skill.${Skill}` | `stage.${StageKind}`;

function inputFor(subject: Subject) {
  const skill = SKILLS.find((s) => subject === `skill.${s}`);
  if (skill) return { applies: 'skill' as const, skill };
  const stage = STAGE_KINDS.find((s) => subject === `stage.${s}`);
  return stage ? { applies: 'stage' as const, stage } : { applies: 'all' as const };
}

/** Dated prices of a person hour: for all work, a skill, or one kind of stage. */
export function RatesPart(props: { readonly page: ShopPage }): ReactNode {
  const t = useText();
  const manner = useManner();
  const set = useCommand('shop.setRate');
  const isOwner = useMay('owner');
  const [subject, setSubject] = useState<Subject>('all');
  const [hourMinor, setHourMinor] = useState<number | null>(null);
  const [fromDay, setFromDay] = useState<LocalDay | null>(null);
  const subjects = [
    { value: 'all' as Subject, label: t('shop.forAll') },
    ...SKILLS.map((s) => ({ value: `skill.${s}` as Subject, label: t(`word.skill.${s}`) })),
    ...STAGE_KINDS.map((s) => ({ value: `stage.${s}` as Subject, label: t(`word.stage.${s}`) })),
  ];
  return (
    <div className={css['form']}>
      <Table
        label={t('shop.part.rates')}
        rows={props.page.rates}
        rowKey={(row) => row.id}
        columns={[
          { key: 'for', head: t('shop.for'), cell: (row) => subjectOf(row, t) },
          {
            key: 'price',
            head: t('shop.priceHead'),
            align: 'right',
            cell: (row) => money(manner, row.hourMinor),
          },
          { key: 'from', head: t('shop.from'), cell: (row) => date(manner, row.fromDay) },
          { key: 'now', head: t('shop.holdsHead'), cell: (row) => (row.holds ? t('shop.holds') : '') },
        ]}
      />
      <Select label={t('shop.for')} options={subjects} value={subject} onChange={setSubject} />
      <MoneyField label={t('shop.hourPrice')} min={0} value={hourMinor} onChange={setHourMinor} />
      <DayField label={t('shop.from')} value={fromDay} onChange={setFromDay} />
      <Refusal refusal={set.refusal} />
      <Row>
        <Button
          kind="go"
          busy={set.busy}
          why={isOwner ? (hourMinor === null ? t('shop.setUp.open') : undefined) : t('shop.onlyOwner')}
          onPress={() =>
            void set.run({
              for: inputFor(subject),
              hourMinor: hourMinor ?? 0,
              ...(fromDay ? { fromDay } : {}),
            })
          }
        >
          {t('shop.addRate')}
        </Button>
      </Row>
    </div>
  );
}
