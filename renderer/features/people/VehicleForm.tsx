import type { ReactNode } from 'react';
import { MOST_LETTERS } from '#core/shared/letters.ts';
import type { VehicleView } from '#core/shared/views/people.ts';
import { BODY_STYLES, PAINT_HARDNESS } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { type Edited, useEdited } from '../../bridge/edited.ts';
import { useMay } from '../../bridge/person.ts';
import { type Say, useText } from '../../bridge/texts.tsx';
import { vinSentence } from '../../bridge/vinSentence.ts';
import { Button } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { Elsewhere } from '../../ui/Elsewhere.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row, Stack } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './people.module.css';

type Draft = Omit<VehicleView, 'id' | 'createdMs' | 'revision' | 'customerId' | 'customer' | 'vinCheck'>;
type Fields = Pick<Edited<Draft>, 'draft' | 'put'> & {
  /** Why nothing can be changed here. */
  readonly off: string | undefined;
};

function draftOf(vehicle: VehicleView): Draft {
  const { body, makeModel, colour, year, plate, vin, lengthMm, widthMm, heightMm, hardness, note } = vehicle;
  return { body, makeModel, colour, year, plate, vin, lengthMm, widthMm, heightMm, hardness, note };
}

/** What is known of a vehicle, to correct; a number that does not fit is said and kept. */
export function VehicleForm(props: { readonly vehicle: VehicleView }): ReactNode {
  const t = useText();
  const { id: vehicleId, revision, vinCheck, vin } = props.vehicle;
  const stored = draftOf(props.vehicle);
  const edited = useEdited(stored, revision);
  const { draft, put, clashes } = edited;
  const change = useCommand('people.changeVehicle');
  const off = useMay('desk') ? undefined : t('people.onlyDesk');
  async function save(): Promise<void> {
    const done = await change.run({ vehicleId, revision: edited.revision, ...draft });
    if (done.ok) edited.saved();
  }
  const wrong = draft.vin === vin ? vinSentence(vinCheck, t) : undefined;
  return (
    <Stack gap={1}>
      <Looks draft={draft} put={put} off={off} />
      <TextField
        label={t('takeIn.vin')}
        value={draft.vin}
        maxLength={MOST_LETTERS.vin}
        onChange={(v) => put({ vin: v })}
        error={wrong ? `${wrong} ${t('vin.kept')}` : undefined}
        off={off}
      />
      <Measures draft={draft} put={put} off={off} />
      <TextField
        lines={2}
        label={t('people.note')}
        value={draft.note}
        maxLength={MOST_LETTERS.note}
        onChange={(v) => put({ note: v })}
        off={off}
      />
      <Elsewhere
        edited={edited}
        stored={stored}
        label={(key) => t(NAMED[key])}
        value={(key) => said(stored, key, t)}
      />
      <Refusal refusal={change.refusal} />
      <Row>
        <Button
          kind="go"
          why={off ?? (clashes.length > 0 ? t('ui.elsewhere.choose') : undefined)}
          busy={change.busy}
          onPress={() => void save()}
        >
          {t('people.save')}
        </Button>
      </Row>
    </Stack>
  );
}

const NAMED = {
  body: 'people.body',
  makeModel: 'takeIn.makeModel',
  colour: 'takeIn.colour',
  year: 'takeIn.year',
  plate: 'takeIn.plate',
  vin: 'takeIn.vin',
  lengthMm: 'people.lengthMm',
  widthMm: 'people.widthMm',
  heightMm: 'people.heightMm',
  hardness: 'people.hardness',
  note: 'people.note',
} as const satisfies Readonly<Record<keyof Draft, string>>;

/** What is stored of a vehicle, as people read it. */
function said(stored: Draft, key: keyof Draft, t: Say): string {
  if (key === 'body') return t(`word.body.${stored.body}`);
  if (key === 'hardness') return t(`word.hardness.${stored.hardness}`);
  return String(stored[key] ?? '');
}

function Looks({ draft, put, off }: Fields): ReactNode {
  const t = useText();
  const yearOf = (typed: string): number | null => Number(typed.replace(/\D/g, '')) || null;
  return (
    <>
      <Select
        label={t('people.body')}
        options={BODY_STYLES.map((value) => ({ value, label: t(`word.body.${value}`) }))}
        value={draft.body}
        onChange={(v) => put({ body: v })}
        off={off}
      />
      <TextField
        label={t('takeIn.makeModel')}
        value={draft.makeModel}
        maxLength={MOST_LETTERS.makeModel}
        onChange={(v) => put({ makeModel: v })}
        off={off}
      />
      <div className={css['three']}>
        <TextField
          label={t('takeIn.colour')}
          value={draft.colour}
          maxLength={MOST_LETTERS.colour}
          onChange={(v) => put({ colour: v })}
          off={off}
        />
        <TextField
          label={t('takeIn.year')}
          maxLength={4}
          value={draft.year === null ? '' : String(draft.year)}
          onChange={(v) => put({ year: yearOf(v) })}
          off={off}
        />
        <TextField
          label={t('takeIn.plate')}
          value={draft.plate}
          maxLength={MOST_LETTERS.plate}
          onChange={(v) => put({ plate: v })}
          off={off}
        />
      </div>
      <Segmented
        label={t('people.hardness')}
        options={PAINT_HARDNESS.map((value) => ({ value, label: t(`word.hardness.${value}`), why: off }))}
        value={draft.hardness}
        onChange={(v) => put({ hardness: v })}
      />
    </>
  );
}

const MEASURES = ['lengthMm', 'widthMm', 'heightMm'] as const;

function Measures({ draft, put, off }: Fields): ReactNode {
  const t = useText();
  return (
    <>
      <div className={css['three']}>
        {MEASURES.map((key) => (
          <NumberField
            key={key}
            label={t(`people.${key}`)}
            unit="mm"
            value={draft[key]}
            onChange={(v) => put({ [key]: v })}
            off={off}
          />
        ))}
      </div>
      <p className="t1 dusty">{t('people.measured')}</p>
    </>
  );
}
