import type { ReactNode } from 'react';
import { CONDITIONS, PROTECTIONS, WISHES } from '#core/shared/views/estimate.ts';
import { useText } from '../../bridge/texts.tsx';
import { Check, Segmented, Words } from '../../ui/Choice.tsx';
import { DateTimeField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { HoursField, MoneyField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import type { WishDraft } from './wish.ts';

const KINDS = ['none', 'money', 'hours'] as const;

/** What they want: in their words, how far, the paint as told, a ceiling, back by. */
export function WishColumn(props: {
  readonly wish: WishDraft;
  readonly onChange: (wish: WishDraft) => void;
}): ReactNode {
  const t = useText();
  const { wish } = props;
  const change = (part: Partial<WishDraft>): void => props.onChange({ ...wish, ...part });
  const kind = wish.ceiling?.kind ?? 'none';
  return (
    <Stack gap={1}>
      <TextField
        label={t('takeIn.words')}
        value={wish.words}
        maxLength={2000}
        onChange={(words) => change({ words })}
      />
      <Select
        label={t('takeIn.far')}
        options={WISHES.map((value) => ({ value, label: t(`word.wish.${value}`) }))}
        value={wish.far}
        onChange={(far) => change({ far })}
      />
      <Segmented
        label={t('takeIn.condition')}
        options={CONDITIONS.map((value) => ({ value, label: t(`takeIn.condition.${value}`) }))}
        value={wish.condition}
        onChange={(condition) => change({ condition })}
      />
      <Segmented
        label={t('takeIn.protection')}
        options={PROTECTIONS.map((value) => ({ value, label: t(`estimate.protection.${value}`) }))}
        value={wish.protection}
        onChange={(protection) => change({ protection })}
      />
      <Words
        label={t('takeIn.ceiling')}
        options={KINDS.map((value) => ({ value, label: t(`takeIn.ceiling.${value}`) }))}
        value={kind}
        onChange={(k) => change({ ceiling: k === 'none' ? null : { kind: k, value: 0 } })}
      />
      {kind === 'money' ? (
        <MoneyField
          label={t('takeIn.ceilingMoney')}
          min={0}
          saves
          value={wish.ceiling?.value || null}
          onChange={(value) => change({ ceiling: { kind: 'money', value: value ?? 0 } })}
        />
      ) : null}
      {kind === 'hours' ? (
        <HoursField
          label={t('takeIn.ceilingHours')}
          min={0}
          saves
          value={wish.ceiling?.value || null}
          onChange={(value) => change({ ceiling: { kind: 'hours', value: value ?? 0 } })}
        />
      ) : null}
      <DateTimeField
        label={t('takeIn.backBy')}
        value={wish.backByMs}
        onChange={(backByMs) => change({ backByMs })}
      />
      <Row>
        <Check
          label={t('takeIn.lookFirst')}
          value={wish.lookFirst}
          onChange={(lookFirst) => change({ lookFirst })}
        />
        <Check
          label={t('takeIn.interior')}
          value={wish.interior}
          onChange={(interior) => change({ interior })}
        />
      </Row>
    </Stack>
  );
}
