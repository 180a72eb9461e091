import type { ReactNode } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import css from './whatIf.module.css';
import type { QuestionProps } from './whatIf.ts';

/** Another technician like one who is there, at the same hours or as a shift of its own. */
export function WhatIfPeople({ start, form, onChange }: QuestionProps): ReactNode {
  const t = useText();
  const nobody = form.like === 'none';
  return (
    <>
      <div className={css['pair']} data-one={nobody}>
        <Select
          label={t('whatIf.person')}
          value={form.like}
          onChange={(like) => onChange({ ...form, like })}
          options={[
            { value: 'none', label: t('whatIf.person.none') },
            ...start.people.map((p) => ({ value: p.personId, label: p.name })),
          ]}
        />
        {nobody ? null : (
          <NumberField
            label={t('whatIf.how')}
            value={form.people}
            min={1}
            max={5}
            onChange={(v) => onChange({ ...form, people: v ?? 1 })}
          />
        )}
      </div>
      {nobody ? null : (
        <Segmented
          label={t('whatIf.hours')}
          value={form.hours}
          onChange={(hours) => onChange({ ...form, hours })}
          options={[
            { value: 'same', label: t('whatIf.hours.same') },
            { value: 'late', label: t('whatIf.hours.late') },
          ]}
        />
      )}
    </>
  );
}
