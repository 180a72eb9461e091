import { type ReactNode, useState } from 'react';
import { panelName } from '#core/shared/text/sayError.ts';
import type { JobView } from '#core/shared/views/bookings.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { TextField } from '../../ui/Field.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Head } from '../../ui/Layout.tsx';
import type { RecordPart } from './carRecord.ts';
import css from './record.module.css';

/** What is damaged already: press a panel and say it. */
export function RecordDamage(props: RecordPart & { readonly job: JobView }): ReactNode {
  const t = useText();
  const { locale } = useManner();
  const { job, record, put } = props;
  const { body } = job.vehicle;
  const [added, setAdded] = useState(-1);
  const marked = Object.fromEntries(record.damage.map((d) => [d.panel, { state: 'lit' as const }]));
  const change = (at: number, note: string): void =>
    put({ damage: record.damage.map((d, i) => (i === at ? { ...d, note } : d)) });
  function add(panel: PanelId): void {
    const empty = record.damage.findIndex((d) => d.panel === panel && d.note === '');
    setAdded(empty < 0 ? record.damage.length : empty);
    if (empty < 0) put({ damage: [...record.damage, { panel, note: '' }] });
  }
  return (
    <div className={css['damage']}>
      <Head level={3} title={t('record.damage')} note={t('record.damageHint')} />
      <FlatCar body={body} label={t('record.damage')} look={marked} onPanel={add} />
      {record.damage.map((d, i) => (
        <TextField
          // biome-ignore lint/suspicious/noArrayIndexKey: notes are only added at the end
          key={`${i}/${i === added}`}
          autoFocus={i === added}
          label={t('record.damageOn', { panel: panelName(locale, d.panel, body) })}
          value={d.note}
          maxLength={200}
          onChange={(note) => change(i, note)}
        />
      ))}
    </div>
  );
}
