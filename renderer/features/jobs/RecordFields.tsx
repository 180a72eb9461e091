import type { ReactNode } from 'react';
import { AGREED_WAYS } from '#core/shared/views/bookings.ts';
import { useText } from '../../bridge/texts.tsx';
import { Check, Segmented } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import type { RecordPart } from './carRecord.ts';
import css from './record.module.css';
import { SignField } from './SignField.tsx';

/** Mileage, keys, belongings, consent to pictures, who agreed and how. */
export function RecordFields({ record, put }: RecordPart): ReactNode {
  const t = useText();
  return (
    <div className={css['fields']}>
      <NumberField
        label={t('record.mileage')}
        value={record.mileage}
        min={0}
        max={9_999_999}
        unit={record.mileageUnit}
        onChange={(mileage) => put({ mileage })}
      />
      <NumberField
        label={t('record.keys')}
        value={record.keyCount}
        min={0}
        max={20}
        onChange={(keys) => put({ keyCount: keys ?? 0 })}
      />
      <div className={css['wide']}>
        <TextField
          label={t('record.belongings')}
          value={record.belongings}
          maxLength={1000}
          onChange={(belongings) => put({ belongings })}
        />
      </div>
      <Check
        label={t('record.picturesRecord')}
        value={record.picturesRecord}
        onChange={(on) => put({ picturesRecord: on, picturesPublish: on && record.picturesPublish })}
      />
      <Check
        label={t('record.picturesPublish')}
        value={record.picturesPublish}
        onChange={(on) => put({ picturesPublish: on, picturesRecord: on || record.picturesRecord })}
      />
      <Agreed record={record} put={put} />
      <div className={css['wide']}>
        <TextField
          label={t('record.note')}
          value={record.note ?? ''}
          maxLength={1000}
          lines={2}
          onChange={(note) => put({ note })}
        />
      </div>
    </div>
  );
}

/** Who stands by the record, and how they said so. */
function Agreed({ record, put }: RecordPart): ReactNode {
  const t = useText();
  return (
    <>
      <div className={css['wide']}>
        <TextField
          label={t('record.agreedBy')}
          value={record.agreedBy}
          maxLength={120}
          onChange={(agreedBy) => put({ agreedBy })}
        />
      </div>
      <div className={css['wide']}>
        <Segmented
          label={t('record.agreedWay')}
          value={record.agreedWay}
          onChange={(agreedWay) => put({ agreedWay })}
          options={AGREED_WAYS.map((value) => ({ value, label: t(`record.way.${value}`) }))}
        />
        {record.agreedWay === 'signature' ? (
          <SignField
            strokes={(record.strokes ?? []) as never}
            onChange={(strokes) => put({ strokes: strokes.map((s) => s.map(([x, y]) => [x, y])) })}
          />
        ) : null}
      </div>
    </>
  );
}
