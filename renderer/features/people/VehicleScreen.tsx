import { type ReactNode, useState } from 'react';
import type { VehicleId } from '#core/shared/ids.ts';
import type { VehicleView } from '#core/shared/views/people.ts';
import { BODY_STYLES, PAINT_HARDNESS } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useText } from '../../bridge/texts.tsx';
import { vinSentence } from '../../bridge/vinSentence.ts';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Column, Head, Place, Row, Stack } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal, Waiting } from '../../ui/States.tsx';
import css from './people.module.css';
import { VisitTable } from './VisitTable.tsx';

/** A vehicle: what is known of it, who keeps it, its visits. `film` is its film over all visits, from the paint screens. */
export function VehicleScreen(props: {
  readonly params: Readonly<Record<string, string>>;
  readonly film?: (vehicleId: VehicleId) => ReactNode;
}): ReactNode {
  const t = useText();
  const vehicleId = props.params['vehicleId'] as VehicleId;
  const page = useQuery('people.vehiclePage', { vehicleId });
  if (!page.data)
    return (
      <Place label={t('people.vehicle')}>{page.error ? <Refusal refusal={page.error} /> : <Waiting />}</Place>
    );
  const { vehicle, keepers, jobs } = page.data;
  const earlier = keepers.slice(1).map((k) => k.name);
  return (
    <Place label={vehicle.makeModel || t('people.vehicle')} columns="left">
      <Column label={t('people.vehicle')}>
        <Head
          title={<span className="cut">{vehicle.makeModel || t(`word.body.${vehicle.body}`)}</span>}
          note={[vehicle.colour, vehicle.year, vehicle.plate].filter(Boolean).join(', ')}
        />
        <p className="quiet cut">
          {t('people.keptBy')} <LinkTo to={`/customers/${vehicle.customerId}`}>{vehicle.customer}</LinkTo>
          {earlier.length > 0 ? ` · ${t('people.earlierKeepers', { names: earlier.join(', ') })}` : ''}
        </p>
        <VehicleForm key={vehicle.revision} vehicle={vehicle} />
      </Column>
      <Column divided label={t('people.visits')}>
        {props.film ? (
          props.film(vehicleId)
        ) : (
          <div className={css['car']}>
            <FlatCar body={vehicle.body} label={t(`word.body.${vehicle.body}`)} />
          </div>
        )}
        <Head title={t('people.visits')}>
          <LinkTo to={`/vehicles/${vehicleId}/film`}>{t('people.film')}</LinkTo>
        </Head>
        <VisitTable jobs={jobs} who="vehicle" />
      </Column>
    </Place>
  );
}

function VehicleForm(props: { readonly vehicle: VehicleView }): ReactNode {
  const t = useText();
  const { id: vehicleId, revision, vinCheck } = props.vehicle;
  const { body, makeModel, colour, year, plate, vin, lengthMm, widthMm, heightMm, hardness, note } =
    props.vehicle;
  const [draft, setDraft] = useState({
    ...{ body, makeModel, colour, year, plate, vin, lengthMm, widthMm, heightMm, hardness, note },
  });
  const change = useCommand('people.changeVehicle');
  const off = useMay('desk') ? undefined : t('people.onlyDesk');
  const put = (part: Partial<typeof draft>): void => setDraft({ ...draft, ...part });
  const wrong = draft.vin === vin ? vinSentence(vinCheck, t) : undefined;
  return (
    <Stack gap={1}>
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
        onChange={(v) => put({ makeModel: v })}
        off={off}
      />
      <div className={css['two']}>
        <TextField
          label={t('takeIn.colour')}
          value={draft.colour}
          onChange={(v) => put({ colour: v })}
          off={off}
        />
        <TextField
          label={t('takeIn.year')}
          maxLength={4}
          value={draft.year === null ? '' : String(draft.year)}
          onChange={(v) => put({ year: v.replace(/\D/g, '') === '' ? null : Number(v.replace(/\D/g, '')) })}
          off={off}
        />
        <TextField
          label={t('takeIn.plate')}
          value={draft.plate}
          onChange={(v) => put({ plate: v })}
          off={off}
        />
        <Segmented
          label={t('people.hardness')}
          options={PAINT_HARDNESS.map((value) => ({ value, label: t(`word.hardness.${value}`), why: off }))}
          value={draft.hardness}
          onChange={(v) => put({ hardness: v })}
        />
      </div>
      <TextField
        label={t('takeIn.vin')}
        value={draft.vin}
        onChange={(v) => put({ vin: v })}
        error={wrong ? `${wrong} ${t('vin.kept')}` : undefined}
        off={off}
      />
      <div className={css['three']}>
        {(['lengthMm', 'widthMm', 'heightMm'] as const).map((key) => (
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
      <TextField
        lines={2}
        label={t('people.note')}
        value={draft.note}
        onChange={(v) => put({ note: v })}
        off={off}
      />
      <Refusal refusal={change.refusal} />
      <Row>
        <Button
          kind="go"
          why={off}
          busy={change.busy}
          onPress={() => void change.run({ vehicleId, revision, ...draft })}
        >
          {t('people.save')}
        </Button>
      </Row>
    </Stack>
  );
}
